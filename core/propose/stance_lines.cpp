// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/stance_lines.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace latemile {

namespace {

constexpr double atBeltHeight = 0.15;  ///< trunk lengths: heel and toe lift while the other stands
constexpr double onePlaceOfBelt = 0.4; ///< trunk lengths: a foot's middle rolls over its toe
constexpr Seconds apartAtMost{0.05};   ///< of two frames that tell a speed
constexpr Seconds shortestLine{0.08};
constexpr Seconds longestLine{0.6}; ///< no runner's foot stands so long: she stood, or did not move
/// A line's own speed is told over times between these: less is noise.
constexpr Seconds paceFrom{0.03};
constexpr Seconds paceTo{0.07};
constexpr double paceOff = 0.3;      ///< share of the belt's speed by which it may differ, ...
constexpr double paceOffLeast = 0.5; ///< ... or trunk lengths a second
constexpr std::size_t fewestOfLine = 5;

/// The middle of ankle, heel and toe, in trunk lengths.
struct Foot {
    FootSeen which;
    Seconds time{};
    double u{};
    double v{};
};

/// Both feet of one frame.
struct Feet {
    Foot left;
    Foot right;
    [[nodiscard]] const Foot& lower() const { return left.v > right.v ? left : right; }
    [[nodiscard]] const Foot& nearest(const Foot& to) const
    {
        const auto apart = [&](const Foot& foot) {
            return std::hypot(foot.u - to.u, foot.v - to.v);
        };
        return apart(left) < apart(right) ? left : right;
    }
};

Foot footOf(const BodyPoints& body, FootSeen which, Seconds time, double trunk)
{
    Foot foot{.which = which, .time = time};
    constexpr std::array points{Landmark::Ankle, Landmark::Heel, Landmark::Toe};
    for (const auto landmark : points) {
        const auto& at = which.isLeft ? body.left(landmark).at : body.right(landmark).at;
        foot.u += at.u / trunk / points.size();
        foot.v += at.v / trunk / points.size();
    }
    return foot;
}

std::vector<Feet> feetOf(std::span<const BodyPoints> bodies, std::span<const Seconds> times)
{
    const double trunk = trunkLength(bodies);
    std::vector<Feet> feet;
    for (std::size_t k = 0; k < bodies.size(); ++k) {
        feet.push_back({.left = footOf(bodies[k], {k, true}, times[k], trunk),
                        .right = footOf(bodies[k], {k, false}, times[k], trunk)});
    }
    return feet;
}

double beltHeight(const std::vector<Feet>& feet)
{
    std::vector<double> heights;
    for (const auto& both : feet) {
        heights.push_back(both.lower().v);
    }
    return medianOf(std::move(heights));
}

/// Trunk lengths a second, positive to the picture's right.
std::optional<double> beltSpeed(const std::vector<Feet>& feet)
{
    std::vector<double> speeds;
    for (std::size_t k = 1; k < feet.size(); ++k) {
        const auto& before = feet[k - 1].lower();
        const auto& now = feet[k].nearest(before);
        const Seconds between = now.time - before.time;
        if (between > Seconds{0} && between <= apartAtMost) {
            speeds.push_back((now.u - before.u) / between.count());
        }
    }
    return speeds.empty() ? std::nullopt : std::optional(medianOf(std::move(speeds)));
}

/// A foot at the belt's height.
struct FootOnBelt {
    Foot foot;
    double place{}; ///< on the belt, trunk lengths
};

/// In order of their places on the belt.
std::vector<FootOnBelt> feetOnBelt(const std::vector<Feet>& feet, double speed)
{
    const double height = beltHeight(feet);
    std::vector<FootOnBelt> onBelt;
    for (const auto& both : feet) {
        for (const auto& foot : {both.left, both.right}) {
            if (std::abs(foot.v - height) <= atBeltHeight) {
                onBelt.push_back({foot, foot.u - speed * foot.time.count()});
            }
        }
    }
    std::ranges::sort(onBelt, {}, &FootOnBelt::place);
    return onBelt;
}

using FootOnBeltRange = std::span<const FootOnBelt>;

/// Where most feet lie in one place of the belt.
FootOnBeltRange fullestPlace(const std::vector<FootOnBelt>& feet)
{
    FootOnBeltRange fullest;
    std::size_t first = 0;
    for (std::size_t last = 0; last < feet.size(); ++last) {
        while (feet[last].place - feet[first].place > onePlaceOfBelt) {
            ++first;
        }
        if (last + 1 - first > fullest.size()) {
            fullest = FootOnBeltRange(feet).subspan(first, last + 1 - first);
        }
    }
    return fullest;
}

/// In order of time.
std::vector<Foot> inOrderOfTime(FootOnBeltRange range)
{
    std::vector<Foot> feet;
    for (const auto& one : range) {
        feet.push_back(one.foot);
    }
    std::ranges::sort(feet, {}, [](const Foot& foot) { return foot.which.body; });
    return feet;
}

/// Of feet in order of time, trunk lengths a second.
std::optional<double> paceOf(const std::vector<Foot>& feet)
{
    std::vector<double> paces;
    std::size_t later = 0;
    for (const auto& foot : feet) {
        while (later < feet.size() && feet[later].time - foot.time < paceFrom) {
            ++later;
        }
        if (later < feet.size() && feet[later].time - foot.time <= paceTo) {
            paces.push_back((feet[later].u - foot.u) / (feet[later].time - foot.time).count());
        }
    }
    return paces.empty() ? std::nullopt : std::optional(medianOf(std::move(paces)));
}

/// Of feet in order of time that lie in one place of a belt of that speed: at least one. One who
/// stands beside the belt, or runs where another speed is the clip's median, is in one place of it
/// for a moment too, but goes at another pace.
bool isStance(const std::vector<Foot>& feet, double speed)
{
    const auto lasts = feet.back().time - feet.front().time;
    const auto pace = paceOf(feet);
    return lasts >= shortestLine && lasts <= longestLine && pace &&
           std::abs(*pace - speed) <= std::max(paceOff * std::abs(speed), paceOffLeast);
}

StanceLine lineOf(const std::vector<Foot>& feet)
{
    StanceLine line;
    for (const auto& foot : feet) {
        line.push_back(foot.which);
    }
    return line;
}

} // namespace

std::vector<StanceLine> stanceLines(std::span<const BodyPoints> bodies,
                                    std::span<const Seconds> times)
{
    std::vector<StanceLine> lines;
    const auto feet = feetOf(bodies, times);
    const auto speed = beltSpeed(feet);
    if (!speed) {
        return lines;
    }
    auto left = feetOnBelt(feet, *speed);
    for (auto range = fullestPlace(left); range.size() >= fewestOfLine;
         range = fullestPlace(left)) {
        if (const auto line = inOrderOfTime(range); isStance(line, *speed)) {
            lines.push_back(lineOf(line));
        }
        const auto from = left.begin() + (range.data() - left.data());
        left.erase(from, from + std::ssize(range));
    }
    std::ranges::sort(lines, {}, [](const StanceLine& line) { return line.front().body; });
    return lines;
}

} // namespace latemile
