// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/prepared_clip.hpp"
#include "core/outcome.hpp"

namespace latemile {

/// Files of points in space need centimetres and at least one mark; an Error says which is missing.
Outcome<void> needPlaneMarks(const PreparedClip& clip, const Marking& marking);

} // namespace latemile
