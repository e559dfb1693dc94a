// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/straight_carry.hpp"

#include <algorithm>

namespace latemile {

namespace {

/// Error of carrying a mark straight to another stride: the flow's spread over the points of a
/// part, of which so many are independent, and what differs between two strides (cm, per axis;
/// fitted on modelled runners).
constexpr double strideChangeCm = 0.15;
constexpr double flowShare = 0.35;
constexpr double marginCm = 20.0;

} // namespace

StraightCarry carriedStraight(const RunnerPictures& pictures, FrameNumber from,
                              const ReducedFigure& figure, const Recurrence& to)
{
    ReducedFigure guess = figure;
    for (auto& point : guess) {
        if (point) {
            *point += to.shift;
        }
    }
    StraightCarry carried{carryFigure(pictures, from, figure, to.frame, guess,
                                      looksOf(pictures, from, figure), Search::Wide),
                          {}};
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const double flow = flowShare * carried.figure.spread[i];
        const double change = strideChangeCm * pictures.pixelsPerCm();
        carried.variance[i] = flow * flow + change * change;
    }
    return carried;
}

cv::Rect2d surroundings(const ReducedFigure& figure, double pixelsPerCm)
{
    cv::Point2d least(1e9, 1e9);
    cv::Point2d most(-1e9, -1e9);
    for (const auto& point : figure) {
        if (point) {
            least = {std::min(least.x, point->x), std::min(least.y, point->y)};
            most = {std::max(most.x, point->x), std::max(most.y, point->y)};
        }
    }
    const double margin = marginCm * pixelsPerCm;
    return {least.x - margin, least.y - margin, most.x - least.x + 2.0 * margin,
            most.y - least.y + 2.0 * margin};
}

} // namespace latemile
