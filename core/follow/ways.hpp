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
    double drifted{}; ///< s it drifted for: the time since the seed, by how well its points agreed
};
/// A landmark drifts the faster the less the points around it agree on how they move, as where a
/// foot bends and turns when it leaves the ground: as how long `seconds` count. `spread` of the
/// flow around it, reduced pixels. Fitted on modelled runners.
[[nodiscard]] double driftTime(double seconds, double spread, double pixelsPerCm);
/// One a frame of the stretch, of each landmark; empty where it was not carried to.
using Ways = std::array<std::vector<std::optional<Way>>, landmarkCount>;

/// What a way was off by when it came to a seed, and after how long.
struct Closure {
    /// Mean of both axes, less what is known of it: reduced pixels². By chance it may be negative.
    double squared{};
    double known{};    ///< the seeds' own variances and, of two placed marks, their clicks'
    double duration{}; ///< s it drifted for
};
using Closures = std::array<std::vector<Closure>, landmarkCount>;

/// Longest time after a seed for which a landmark is carried on from it; a choice of this project.
inline constexpr double longestAlone = 0.5; ///< s

/// Sets a way down on a seed. Where a way arrives there already, what it is off by is a closure.
void setDown(std::optional<Way>& way, const Seed& seed, double time,
             std::vector<Closure>& closures);

/// The same landmark carried on to `at`, where it drifted for `driftTime` more.
[[nodiscard]] Way carriedOn(const Way& from, cv::Point2d at, double driftTime);

/// Joins both ways by their errors. What they were off by at the seeds shows how much each landmark
/// drifts in this clip, which enters its rate. A way that is about to end counts ever less beside
/// the other, so that the path does not jump there. `times` one a frame.
[[nodiscard]] FigurePaths joinedWays(const Ways& ahead, const Ways& behind,
                                     const Closures& closures, const std::vector<double>& times,
                                     double pixelsPerCm);

} // namespace latemile
