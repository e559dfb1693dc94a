// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace latemile {

/// A turn and a shift in the picture's plane.
struct RigidMove {
    cv::Point2d from;  ///< turned about this point ...
    cv::Point2d to;    ///< ... which comes to lie here
    double turn{};     ///< radians, from the picture's right towards its bottom
    double spread{};   ///< robust standard deviation of what the move leaves, pixels
    double agreeing{}; ///< share of the points that the move explains, 0 to 1
    [[nodiscard]] cv::Point2d carried(cv::Point2d point) const;
    [[nodiscard]] cv::Point2d cameFrom(cv::Point2d point) const; ///< the way back
};

/// The move that takes most of `before` to `after` (one point each, in the same order): weighted
/// least squares (the plane case of Kabsch 1976), in which a point counts the less the farther it
/// is off (Geman-McClure weights). Nothing from fewer than three points; from points that all lie
/// on one spot a shift without a turn.
[[nodiscard]] std::optional<RigidMove> rigidMoveBetween(const std::vector<cv::Point2d>& before,
                                                        const std::vector<cv::Point2d>& after);

} // namespace latemile
