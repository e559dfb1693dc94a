// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/ground_times.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace latemile {

namespace {

// When a foot is taken to be on the ground at all.
constexpr double onGroundSlip = 0.12;
constexpr double onGroundHeight = 4.0; ///< cm
constexpr double shortestHole = 0.04;  ///< s, between two stances
constexpr double shortestStance = 0.08;

// The signs: levels crossed, delays taken off (s), and what they are uncertain by: a fixed part (s)
// and a slack of the level, which is the longer in time the slower it is crossed.
struct SignOf {
    double level;
    double delay;
    double fixedError;
    double slack;
};
constexpr SignOf landedSlip{0.06, 0.000, 0.0015, 0.02};
constexpr SignOf landedFall{0.05, -0.010, 0.008, 0.0};
constexpr SignOf leavingSlip{0.10, 0.007, 0.003, 0.03};
constexpr SignOf leavingHeight{1.5, 0.027, 0.005, 0.5};

constexpr double lookBefore = 0.07; ///< s around the edges of a stance
constexpr double lookAfter = 0.05;
constexpr double heldFor = 0.02; ///< s for which a signal stays past its level

using Signal = std::function<std::optional<double>(std::size_t)>;

struct Crossing {
    double time{};
    double rate{}; ///< of the signal, a second; absolute
};

std::optional<Crossing> crossingAt(const FootMotion& foot, const Signal& signal, std::size_t i,
                                   double level, bool falls)
{
    if (i + 1 >= foot.times.size()) {
        return std::nullopt;
    }
    const auto a = signal(i);
    const auto b = signal(i + 1);
    if (!a || !b) {
        return std::nullopt;
    }
    const double before = falls ? *a - level : level - *a;
    const double after = falls ? *b - level : level - *b;
    if (!(before > 0.0 && after <= 0.0)) {
        return std::nullopt;
    }
    const double interval = foot.times[i + 1] - foot.times[i];
    return Crossing{foot.times[i] + interval * before / (before - after),
                    (before - after) / interval};
}

/// Whether the signal stays past half again its level after frame `i`.
bool isHeld(const FootMotion& foot, const Signal& signal, std::size_t i, double level, bool falls)
{
    for (std::size_t k = i + 1; k < foot.times.size() && foot.times[k] <= foot.times[i] + heldFor;
         ++k) {
        const auto value = signal(k);
        if (value && (falls ? *value > 1.5 * level : *value < level / 1.5)) {
            return false;
        }
    }
    return true;
}

enum class Wanted { First, Last };

std::optional<Crossing> crossingIn(const FootMotion& foot, const Signal& signal, double from,
                                   double to, double level, bool falls, Wanted wanted)
{
    std::optional<Crossing> found;
    for (std::size_t i = 0; i + 1 < foot.times.size(); ++i) {
        if (foot.times[i + 1] < from || foot.times[i] > to) {
            continue;
        }
        const auto crossing = crossingAt(foot, signal, i, level, falls);
        if (crossing && isHeld(foot, signal, i, level, falls)) {
            found = crossing;
            if (wanted == Wanted::First) {
                break;
            }
        }
    }
    return found;
}

std::optional<TimedEvent> signFrom(const std::optional<Crossing>& crossing, const SignOf& sign)
{
    if (!crossing) {
        return std::nullopt;
    }
    return TimedEvent{crossing->time - sign.delay,
                      std::hypot(sign.fixedError, sign.slack / crossing->rate)};
}

/// Weighted by their errors; where they contradict each other the error is widened (Birge).
std::optional<TimedEvent> together(const std::optional<TimedEvent>& a,
                                   const std::optional<TimedEvent>& b, double interval)
{
    if (!a || !b) {
        const auto& one = a ? a : b;
        return one ? std::optional(TimedEvent{one->time, std::hypot(one->se, 0.25 * interval)})
                   : std::nullopt;
    }
    const double wa = 1.0 / (a->se * a->se);
    const double wb = 1.0 / (b->se * b->se);
    const double variance = 1.0 / (wa + wb);
    const double apart = a->time - b->time;
    const double birge = std::max(1.0, apart * apart / (a->se * a->se + b->se * b->se));
    return TimedEvent{(wa * a->time + wb * b->time) * variance,
                      std::hypot(std::sqrt(variance * birge), 0.25 * interval)};
}

struct Span {
    std::size_t first{};
    std::size_t last{};
};

bool isOnGround(const FootMotion& foot, std::size_t frame)
{
    const auto slip = foot.slip(frame);
    const auto lower = foot.lower(frame);
    return slip && *slip < onGroundSlip && lower->height < onGroundHeight;
}

std::vector<Span> spansOf(const FootMotion& foot)
{
    std::vector<Span> spans;
    for (std::size_t i = 0; i < foot.times.size(); ++i) {
        if (!isOnGround(foot, i)) {
            continue;
        }
        if (!spans.empty() && foot.times[i] - foot.times[spans.back().last] < shortestHole) {
            spans.back().last = i;
        } else {
            spans.push_back({i, i});
        }
    }
    std::erase_if(spans, [&](const Span& span) {
        return foot.times[span.last] - foot.times[span.first] < shortestStance;
    });
    return spans;
}

std::optional<TimedEvent> contactOf(const FootMotion& foot, const Span& span, double interval)
{
    const double edge = foot.times[span.first];
    const Signal slip = [&](std::size_t i) { return foot.slip(i); };
    const Signal fall = [&](std::size_t i) -> std::optional<double> {
        const auto lower = foot.lower(i);
        return lower ? std::optional(-lower->rise) : std::nullopt;
    };
    const auto slipped = signFrom(crossingIn(foot, slip, edge - lookBefore, edge + lookBefore,
                                             landedSlip.level, true, Wanted::First),
                                  landedSlip);
    if (!slipped) {
        return std::nullopt;
    }
    const auto fallen =
        signFrom(crossingIn(foot, fall, slipped->time - lookBefore, slipped->time + lookAfter,
                            landedFall.level, true, Wanted::Last),
                 landedFall);
    return together(slipped, fallen, interval);
}

std::optional<TimedEvent> toeOffOf(const FootMotion& foot, const Span& span, double interval)
{
    const double edge = foot.times[span.last];
    const Signal slip = [&](std::size_t i) -> std::optional<double> {
        return foot.toe[i] ? std::optional(foot.toe[i]->slip) : std::nullopt;
    };
    const Signal height = [&](std::size_t i) -> std::optional<double> {
        return foot.toe[i] ? std::optional(foot.toe[i]->height) : std::nullopt;
    };
    const auto slipped = signFrom(crossingIn(foot, slip, edge - lookBefore, edge + lookAfter,
                                             leavingSlip.level, false, Wanted::Last),
                                  leavingSlip);
    const double about = slipped ? slipped->time : edge;
    const auto risen = signFrom(crossingIn(foot, height, about - 0.02, about + 0.09,
                                           leavingHeight.level, false, Wanted::First),
                                leavingHeight);
    return together(slipped, risen, interval);
}

} // namespace

std::vector<GroundTime> groundTimesOf(const FootMotion& foot)
{
    const double interval =
        (foot.times.back() - foot.times.front()) / static_cast<double>(foot.times.size() - 1);
    std::vector<GroundTime> found;
    for (const auto& span : spansOf(foot)) {
        const GroundTime time{contactOf(foot, span, interval), toeOffOf(foot, span, interval)};
        if (time.contact || time.toeOff) {
            found.push_back(time);
        }
    }
    return found;
}

} // namespace latemile
