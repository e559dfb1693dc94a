// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/prepared_clip.hpp"
#include "core/outcome.hpp"

#include <string>

namespace latemile {

/// The marks in the runner's plane as a TRC table (track row column; tab-separated text as
/// movement laboratories exchange it): millimetres, X forward, Y up, Z = 0, since one camera sees
/// no depth; a row a frame from the first to the last marked one, counted from 1, with its real
/// time; empty cells where a point is not marked. `name` stands for the file in its first line.
/// Error: no scale, or no mark at all.
Outcome<std::string> trcText(const PreparedClip& clip, const Marking& marking,
                             const std::string& name);

} // namespace latemile
