// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/followed_path.hpp"

#include <utility>
#include <vector>

namespace latemile {

/// Longest time over which a landmark that was not seen is bridged; a choice of this project: a
/// third of a swing.
inline constexpr double longestBridge = 0.1; ///< s

/// Fills holes of at most `longestBridge` between points that were seen, by a shape-preserving
/// cubic, and marks what it filled. The error of a bridge is that of its ends and what an
/// acceleration of 20 m/s² that nobody saw would do (a choice of this project).
void bridgeGaps(FollowedPath& path, const std::vector<double>& times, double pixelsPerCm);

/// A thigh or shank that is 15 % longer or shorter than it is as a rule (the median of the path)
/// does not end where it was followed to: its lower end becomes doubtful, and its error at least
/// what the length is off by. Arms swing towards the camera and are not judged. A choice of this
/// project; marking by hand flags 10 %.
void doubtBrokenBones(FigurePaths& paths);

/// Takes the noise of following out of a path without delay: a zero-lag Butterworth filter at the
/// cut-off that residual analysis finds for this landmark. Stretches between holes are smoothed one
/// by one; frames at uneven times are left as they are.
void smoothPath(FollowedPath& path, const std::vector<double>& times);

/// All of the above, over the landmarks that have a seed.
[[nodiscard]] std::vector<std::pair<Landmark, FollowedPath>>
finishedPaths(FigurePaths paths, const FigureSeeds& seeds, const std::vector<double>& times,
              double pixelsPerCm);

} // namespace latemile
