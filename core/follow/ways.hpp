// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/followed_path.hpp"

#include <vector>

namespace latemile {

/// A landmark while it is carried one way, forwards or backwards.
struct Way {
    cv::Point2d at; ///< reduced pixels
    double since{}; ///< time of the seed it comes from, s
    double seedVariance{};
    std::int64_t origin{-1}; ///< frame of the placed mark it hangs on
    double clickVariance{};  ///< per axis, of that mark
};
/// One a frame of the stretch, of each landmark; empty where it was not carried to.
using Ways = std::array<std::vector<std::optional<Way>>, landmarkCount>;

/// What a way was off by when it came to a seed, and after how long.
struct Closure {
    /// Mean of both axes, less what is known of it: reduced pixels². By chance it may be negative.
    double squared{};
    double known{};    ///< the seeds' own variances and, of two placed marks, their clicks'
    double duration{}; ///< s
};
using Closures = std::array<std::vector<Closure>, landmarkCount>;

/// Longest time after a seed for which a landmark is carried on from it; a choice of this project.
inline constexpr double longestAlone = 0.5; ///< s

/// Sets a way down on a seed. Where a way arrives there already, what it is off by is a closure.
void setDown(std::optional<Way>& way, const Seed& seed, double time,
             std::vector<Closure>& closures);

/// Joins both ways by their errors. What they were off by at the seeds shows how much each landmark
/// drifts in this clip, which enters its rate. `times` one a frame.
[[nodiscard]] FigurePaths joinedWays(const Ways& ahead, const Ways& behind,
                                     const Closures& closures, const std::vector<double>& times,
                                     double pixelsPerCm);

} // namespace latemile
