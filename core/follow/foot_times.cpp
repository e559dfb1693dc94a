// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/foot_times.hpp"

#include "core/follow/figure.hpp"
#include "core/follow/like_steps.hpp"
#include "core/median.hpp"

#include <map>
#include <utility>

namespace latemile {

namespace {

bool isSure(const Marking& marking, BodySide side, const Plane& plane, double cmPerUnit)
{
    constexpr double sureCm = 1.0;
    constexpr double unsurePx = 1e6; // brought in from elsewhere without a word of its error
    std::vector<double> errors;
    for (const auto& [key, mark] : marking.marks) {
        const bool isEnd = key.landmark == Landmark::Heel || key.landmark == Landmark::Toe;
        if (isEnd && key.side == side) {
            const double unstated = mark.origin == Origin::Placed ? 0.0 : unsurePx;
            errors.push_back(mark.sePx.value_or(unstated) * plane.cmPerPixel(mark.at) * cmPerUnit);
        }
    }
    return errors.empty() || upperMedianOf(std::move(errors)) < sureCm;
}

} // namespace

double cmPerUnit(const Marking& marking, const Plane& plane)
{
    if (plane.hasScale()) {
        return 1.0;
    }
    std::map<std::pair<FrameNumber, BodySide>, Figure> figures;
    for (const auto& [key, mark] : marking.marks) {
        figures[{key.frame, key.side}][placeOf(key.landmark)] = mark.at;
    }
    std::vector<Figure> list;
    for (const auto& [key, figure] : figures) {
        list.push_back(figure);
    }
    return 1.0 / roughPixelsPerCm(list).value_or(3.0);
}

std::vector<FootTimes> footTimesOf(const Marking& marking, const Plane& plane,
                                   const FrameIndex& index)
{
    const double unit = cmPerUnit(marking, plane);
    std::vector<FootTimes> feet;
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        auto motion = footMotionOf(marking, side, plane, index, unit);
        if (!motion) {
            continue;
        }
        const bool sure = isSure(marking, side, plane, unit);
        auto times = groundTimesOf(*motion);
        if (!sure) {
            times = likeSteps(*motion, std::move(times));
        }
        feet.push_back({side, std::move(*motion), std::move(times), sure});
    }
    return feet;
}

} // namespace latemile
