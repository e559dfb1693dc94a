// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_points.hpp"
#include "core/quantities.hpp"

#include <span>
#include <vector>

namespace latemile {

/// How the network's left and right leg lie on one frame. Its knees and its feet (ankle, heel, toe)
/// can be exchanged each by themselves.
struct LegsSeen {
    bool kneesExchanged{};
    bool feetExchanged{};
    /// How much more the whole clip would cost (see legsSeen) were the feet of this frame told the
    /// other way, in trunk lengths: near nothing where both ways would do.
    double sureness{};
};

/// On which frames the network calls the left leg the right one, or parts of it: the sequence of
/// knees and feet "as given" and "exchanged" that moves them most smoothly about the middle of the
/// hips and leaves the shanks their length (second-order Viterbi search). `bodies` in order of
/// time, about evenly spaced (costs go by the frame: among thin looks a denser stretch costs less a
/// second, and is told as surely), `times` one each; of fewer than three nothing can be told and
/// none is called exchanged. Searched twice: what the first search tells of the frames of one
/// stance says, weighed by its sureness, which foot stands (stance_lines.hpp), and where that is
/// clear, three against one, the second leans to it. Where the two tell the feet otherwise
/// there is no sureness.
///   cost of a frame  the sum over both legs' points of min(|acceleration| / trunk, 0.6)
///                    + 0.25 min(|velocity| / trunk, 0.6), by the frame;
///                    + of both shanks min(|length - the clip's median| / trunk, 0.6)
///                    + 0.2 where the feet are exchanged, + 0.2 where the knees are otherwise
///                    + in the second search 1 for a foot that stands called the other one
[[nodiscard]] std::vector<LegsSeen> legsSeen(std::span<const BodyPoints> bodies,
                                             std::span<const Seconds> times);

} // namespace latemile
