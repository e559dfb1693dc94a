// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_paths.hpp"

#include <array>
#include <vector>

namespace latemile {

/// The points of a leg that its bones join.
inline constexpr std::array bonedPoints{Landmark::Hip, Landmark::Knee, Landmark::Ankle,
                                        Landmark::Heel, Landmark::Toe};

/// One leg on one frame, by bonedPoints.
struct LegOnFrame {
    std::array<PixelPoint, bonedPoints.size()> at;
    std::array<double, bonedPoints.size()> sePx{}; ///< per axis, > 0
};

/// Moves the points of a leg, frame by frame, to where the bones (thigh, shank, and the foot's
/// three) come nearer to the lengths they have in the clip: the least sum of squares of how far
/// points move, each by its own error, and of how far lengths are off, by how much a bone's length
/// varies through the clip. A bone seen from the side keeps its length but for what it
/// turns out of the picture's plane, and that is in its variation. Points that are surely known
/// hardly move; unsure ones are led by their neighbours. `legs` of one side, in order of time;
/// their errors stay.
void holdBoneLengths(std::vector<LegOnFrame>& legs);

/// Both legs of the paths. A point's error is the network's noise, a doubted one's a fifth of the
/// trunk at least.
void holdBoneLengths(BodyPaths& paths);

} // namespace latemile
