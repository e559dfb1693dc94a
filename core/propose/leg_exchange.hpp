// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_points.hpp"

#include <span>
#include <vector>

namespace latemile {

/// On which frames the network calls the left leg the right one: the sequence of "as given" and
/// "exchanged" that moves knees, ankles, heels and toes most smoothly about the middle of the hips
/// (second-order Viterbi search). `bodies` in order of time, about evenly spaced; of fewer than
/// three nothing can be told and none is called exchanged.
///   cost of a frame  the sum over both legs' points of min(|acceleration| / trunk, 0.6)
///                    + 0.25 min(|velocity| / trunk, 0.6), by the frame; + 0.2 where exchanged
[[nodiscard]] std::vector<bool> exchangedLegs(std::span<const BodyPoints> bodies);

/// Median over the frames of the distance from mid hip to mid shoulder, pixels, at least 1.
[[nodiscard]] double trunkLength(std::span<const BodyPoints> bodies);

} // namespace latemile
