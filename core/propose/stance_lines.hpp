// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_points.hpp"
#include "core/quantities.hpp"

#include <span>
#include <vector>

namespace latemile {

/// One foot of one frame, as the network names it.
struct FootSeen {
    std::size_t body{}; ///< place among the bodies
    bool isLeft{};
    bool operator==(const FootSeen&) const = default;
};

/// One foot standing on the moving belt (or, without a belt, on the ground): in order of time. All
/// of a line are one and the same foot, whatever the network calls it, since nothing but a foot on
/// the belt goes on with the belt at the belt's height; so a line tells the leg across frames on
/// which the feet are hidden or taken for each other.
using StanceLine = std::vector<FootSeen>;

/// The stances among `bodies` (in order of time, `times` one each), without knowing which foot is
/// which: feet at the height where the lower foot mostly is, that lie within 0.4 trunk lengths of
/// one place on the belt, over 80 ms or more and on five frames or more. The belt's speed is the
/// median of the lower foot's, of frames less than 50 ms apart: where there are none, no line.
/// A foot is in one line at most; in order of their first frames.
[[nodiscard]] std::vector<StanceLine> stanceLines(std::span<const BodyPoints> bodies,
                                                  std::span<const Seconds> times);

} // namespace latemile
