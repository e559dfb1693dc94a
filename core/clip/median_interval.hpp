// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"

namespace latemile {

/// Between one frame and the next, real time; of an even number the upper middle one. Zero for a
/// clip of a single frame.
[[nodiscard]] Seconds medianInterval(const FrameIndex& index);

} // namespace latemile
