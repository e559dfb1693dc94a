// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"

namespace latemile {

/// How far apart in time a landmark's proposed marks may lie for its contacts to be found all the
/// same. A foot comes down over 50 ms and more.
inline constexpr Seconds widestBridge{0.030};

/// The marking with heels and toes on the frames between their proposed marks too, where these lie
/// no farther apart than the widest bridge, four or more of them: by a shape-preserving cubic, with
/// the error of the surer neighbour, none where one states none. For telling how a foot moves;
/// nobody saw those marks.
[[nodiscard]] Marking bridged(const Marking& marking, const FrameIndex& index);

} // namespace latemile
