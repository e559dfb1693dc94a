// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/steps.hpp"

#include "core/clip/median_interval.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// An interval longer than so many usual ones is a hole in the clip.
constexpr double gapFrames = 1.5;

bool hasGap(Seconds from, Seconds to, const FrameIndex& index, Seconds usual)
{
    for (auto i = std::max<std::int64_t>(index.firstAtOrAfter(from).value, 1); i < index.size();
         ++i) {
        if (index.time({i - 1}) >= to) {
            break;
        }
        if (index.time({i}) - index.time({i - 1}) > gapFrames * usual) {
            return true;
        }
    }
    return false;
}

Seconds eventErrorOf(const Stance& stance, const FrameIndex& index)
{
    if (stance.se) {
        return *stance.se;
    }
    const auto frame = std::min(index.firstAtOrAfter(stance.contact).value, index.size() - 1);
    const auto interval = index.interval(FrameNumber{frame});
    return interval * std::hypot(1.0 / std::sqrt(12.0), 0.5);
}

bool isEarlier(const Stance& a, const Stance& b)
{
    return a.contact < b.contact;
}

Step stepFrom(const std::vector<Stance>& stances, std::size_t i, const FrameIndex& index,
              Seconds usual)
{
    const auto& stance = stances[i];
    Step step{.number = {static_cast<int>(i) + 1},
              .foot = stance.foot,
              .origin = stance.origin,
              .contact = stance.contact,
              .toeOff = stance.toeOff,
              .nextContact = std::nullopt,
              .strideEnd = std::nullopt,
              .eventError = eventErrorOf(stance, index),
              .gap = false};
    if (i + 1 < stances.size() && stances[i + 1].foot != stance.foot) {
        step.nextContact = stances[i + 1].contact;
        if (i + 2 < stances.size() && stances[i + 2].foot == stance.foot) {
            step.strideEnd = stances[i + 2].contact;
        }
    }
    const auto end =
        std::max(step.toeOff.value_or(stance.contact), step.nextContact.value_or(stance.contact));
    step.gap = hasGap(stance.contact, end, index, usual);
    return step;
}

std::optional<Seconds> timeOf(const Step& step, Instant instant)
{
    switch (instant) {
    case Instant::Contact:
        return step.contact;
    case Instant::MidStance:
        return step.midStance();
    case Instant::ToeOff:
        return step.toeOff;
    case Instant::MidSwing:
        return step.midSwing();
    }
    return std::nullopt;
}

} // namespace

std::string_view nameOf(Instant instant)
{
    switch (instant) {
    case Instant::Contact:
        return "contact";
    case Instant::MidStance:
        return "mid-stance";
    case Instant::ToeOff:
        return "toe-off";
    case Instant::MidSwing:
        return "mid-swing";
    }
    return {};
}

std::optional<Seconds> Step::midStance() const
{
    if (!toeOff) {
        return std::nullopt;
    }
    return (contact + *toeOff) / 2.0;
}

std::optional<Seconds> Step::midSwing() const
{
    if (!toeOff || !strideEnd) {
        return std::nullopt;
    }
    return (*toeOff + *strideEnd) / 2.0;
}

std::vector<Step> stepsOf(const std::vector<Stance>& stances, const FrameIndex& index)
{
    if (index.size() == 0) {
        return {};
    }
    auto inOrder = stances;
    std::stable_sort(inOrder.begin(), inOrder.end(), isEarlier);
    const auto usual = medianInterval(index);
    std::vector<Step> steps;
    for (std::size_t i = 0; i < inOrder.size(); ++i) {
        steps.push_back(stepFrom(inOrder, i, index, usual));
    }
    return steps;
}

std::optional<FrameNumber> frameOf(const Step& step, Instant instant, const FrameIndex& index)
{
    const auto time = timeOf(step, instant);
    if (!time || index.size() == 0 || *time > index.times().back() ||
        *time < index.times().front()) {
        return std::nullopt;
    }
    if (instant == Instant::Contact || instant == Instant::ToeOff) {
        return index.firstAtOrAfter(*time);
    }
    // Half-way between two frames is common (both events lie half-way), so a rounding of the times
    // must not decide: a hundredth of a frame earlier is the earlier frame.
    const auto near = index.nearest(*time);
    return index.nearest(std::max(*time - 0.02 * index.interval(near), index.times().front()));
}

} // namespace latemile
