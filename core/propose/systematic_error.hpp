// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"

namespace latemile {

/// Where the network puts a landmark against where we mark it, in a clip nobody has marked yet.
/// Lengths in trunk lengths (mid hip to mid shoulder), in the direction of a segment the network
/// itself sees and square to it: square counts forward where the segment points up and down where
/// it points forward, whichever way the runner faces.
struct SystematicError {
    Landmark from{}; ///< the segment's ends
    Landmark to{};
    double along{}; ///< to be added to the network's point
    double square{};
    /// Standard deviations per axis: of the constant between clips and people, of what changes with
    /// the pose, of a sharply seen point from frame to frame.
    double betweenClips{};
    double withPose{};
    double frameNoise{};
};

/// Measured on seven rendered clips with exact truth, of two kinds with unlike definitions of the
/// points (four of our maker's, three of the sample athlete's): `along` and `square` are the mean
/// of the two kinds, `betweenClips` covers what they differ by. Real people differ more: the
/// coach's first confirmed marks take the constant's place.
[[nodiscard]] SystematicError systematicError(Landmark landmark);

/// How alike two poses must be for their errors to be alike, as the distance between the points of
/// the leg on the landmark's own side (knee and ankle from the hip, toe from the ankle) in trunk
/// lengths.
inline constexpr double poseReach = 0.4;

/// Error of a single frame for a point with this peak of its heat map: it grows e-fold with each
/// fifth that the peak falls below 0.92 (fitted to the same clips).
[[nodiscard]] double frameNoise(Landmark landmark, double peak);

} // namespace latemile
