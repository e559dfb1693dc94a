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
/// of a line are taken for one and the same foot, whatever the network calls it, since little else
/// goes on with the belt at the belt's height; so a line tells the leg across frames on which the
/// feet are hidden or taken for each other. Where the network sees both feet in one place, both are
/// in it.
using StanceLine = std::vector<FootSeen>;

/// The stances among `bodies` (in order of time, `times` one each), without knowing which foot is
/// which: feet within 0.15 trunk lengths of the height where the lower foot mostly is, that lie
/// within 0.4 trunk lengths of one place on the belt, five of them or more, from 0.08 to 0.6 s from
/// the first to the last, and go at the belt's pace. The belt's speed is the median of the lower
/// foot's, of frames at most 50 ms apart: where there are none, or half of the clip is no running,
/// no line. A foot is in one line at most; in order of their first frames.
[[nodiscard]] std::vector<StanceLine> stanceLines(std::span<const BodyPoints> bodies,
                                                  std::span<const Seconds> times);

} // namespace latemile
