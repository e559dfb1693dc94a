// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_paths.hpp"

namespace latemile {

/// Moves the points of each leg, frame by frame, to where the bones (thigh, shank, and the foot's
/// three) come nearer to the lengths they have in the clip: the least sum of squares of how far
/// points move, each by its own error, and of how far lengths are off, by how much a bone's length
/// varies through the clip. A bone seen from the side keeps its length but for what it
/// turns out of the picture's plane, and that is in its variation. Points that are sharply seen
/// hardly move; faint and doubtful ones are led by their neighbours.
void holdBoneLengths(BodyPaths& paths);

} // namespace latemile
