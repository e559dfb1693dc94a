// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"

#include <vector>

namespace latemile {

/// The frames a clip's proposals are made on: about 125 a second, since more make no path surer and
/// take longer. Of less than 187.5 a second all, from there on every second, then every third.
[[nodiscard]] std::vector<FrameNumber> framesToSearch(const FrameIndex& index);

/// Of these every 40th of a second one: enough to find contacts from (bridged_marks.hpp), in a
/// third of the time.
[[nodiscard]] std::vector<FrameNumber> thinFrames(const FrameIndex& index);

/// Of the thin ones those of about one stride: 0.9 s from `from` on, or the last 0.9 s of the clip.
/// What is looked at first, so that there are contacts to confirm within seconds.
[[nodiscard]] std::vector<FrameNumber> firstFrames(const FrameIndex& index, FrameNumber from);

/// `wanted` and two frames before and after each, a 60th of a second apart: near and far leg are
/// told by how they move. In order, each once.
[[nodiscard]] std::vector<FrameNumber> withNeighbours(const std::vector<FrameNumber>& wanted,
                                                      const FrameIndex& index);

} // namespace latemile
