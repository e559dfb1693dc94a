// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/prepared_clip.hpp"
#include "core/outcome.hpp"

#include <string>

namespace latemile {

/// The marks in the runner's plane as a C3D file (the public "C3D file format" user guide,
/// c3d.org): processor type Intel, floating-point data, millimetres; X forward, Z up, Y = 0, since
/// one camera sees no depth. A frame of the file is a frame of the clip, from the first to the last
/// marked one, counted from 1. A point that is not marked has the residual -1; of the others the
/// residual is the mark's standard error, in tenths of a millimetre up to 25.5 mm. Contacts and
/// toe-offs are events ("Contact", "Toe-off", context Left or Right) in seconds from the
/// clip's first frame. Error: no scale, no mark, frames of unlike length (C3D knows one rate), a
/// frame past 65535, more than 255 events.
Outcome<std::string> c3dBytes(const PreparedClip& clip, const Marking& marking);

} // namespace latemile
