// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/rigid_move.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr int rounds = 5;
constexpr double leastSpread = 0.1; ///< pixels: below it flow is not more certain

cv::Point2d weightedMean(const std::vector<cv::Point2d>& points, const std::vector<double>& weights)
{
    cv::Point2d sum;
    double total = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        sum += weights[i] * points[i];
        total += weights[i];
    }
    return sum / total;
}

RigidMove fitted(const std::vector<cv::Point2d>& before, const std::vector<cv::Point2d>& after,
                 const std::vector<double>& weights)
{
    RigidMove move{weightedMean(before, weights), weightedMean(after, weights), 0.0, 0.0, 0.0};
    double along = 0.0;
    double across = 0.0;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const auto a = before[i] - move.from;
        const auto b = after[i] - move.to;
        along += weights[i] * a.dot(b);
        across += weights[i] * a.cross(b);
    }
    move.turn = std::atan2(across, along);
    return move;
}

std::vector<double> leftOver(const RigidMove& move, const std::vector<cv::Point2d>& before,
                             const std::vector<cv::Point2d>& after)
{
    std::vector<double> distances;
    distances.reserve(before.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
        distances.push_back(cv::norm(after[i] - move.carried(before[i])));
    }
    return distances;
}

} // namespace

cv::Point2d RigidMove::carried(cv::Point2d point) const
{
    const auto d = point - from;
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    return {to.x + c * d.x - s * d.y, to.y + s * d.x + c * d.y};
}

cv::Point2d RigidMove::cameFrom(cv::Point2d point) const
{
    return RigidMove{to, from, -turn}.carried(point);
}

std::optional<RigidMove> rigidMoveBetween(const std::vector<cv::Point2d>& before,
                                          const std::vector<cv::Point2d>& after)
{
    if (before.size() < 3) {
        return std::nullopt;
    }
    std::vector<double> weights(before.size(), 1.0);
    RigidMove move;
    for (int round = 0; round < rounds; ++round) {
        move = fitted(before, after, weights);
        const auto distances = leftOver(move, before, after);
        // The median of the lengths of two-dimensional normal errors is 1.18 standard deviations.
        move.spread = std::max(upperMedianOf(distances) / 1.1774, leastSpread);
        int agreeing = 0;
        for (std::size_t i = 0; i < weights.size(); ++i) {
            const double off = distances[i] / (2.0 * move.spread);
            weights[i] = 1.0 / ((1.0 + off * off) * (1.0 + off * off));
            agreeing += off < 1.5 ? 1 : 0;
        }
        move.agreeing = static_cast<double>(agreeing) / static_cast<double>(weights.size());
    }
    return move;
}

} // namespace latemile
