// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_paths.hpp"
#include "core/propose/smooth_path.hpp"

#include <span>

namespace latemile {

/// Of one landmark's path as found: faint where the heat map's peak is below 0.5; jumping where a
/// point lies more than 0.2 trunk lengths from where the two frames before and the two after it
/// (those that are not faint, within 0.1 s) let it be expected.
[[nodiscard]] std::vector<Doubt> doubtsOf(std::span<const PathSample> samples,
                                          std::span<const double> peaks, double trunkPx);

/// Adds jumping where the smoothed path lies more than 0.1 trunk lengths from what was found.
/// `samples` one a frame of the path.
void doubtUnlikeSmoothed(LandmarkPath& path, std::span<const PathSample> samples, double trunkPx);

/// What only the body as a whole shows: bones of another length than the clip's median (leg bones
/// by a quarter, the foot by half), points within 2 % of the picture's edge, legs on frames with
/// too few neighbours to tell which is which, legs that hardly differ in how well either way
/// continues the clip, and points of one foot that lie with the other foot while the rest of it
/// does not. Adds a remark where a near point is at the edge on any frame, or a leg unsure.
void addDoubts(BodyPaths& paths, int width, int height);

} // namespace latemile
