// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/foot_motion.hpp"

#include <optional>
#include <vector>

namespace latemile {

/// When an event was, and how sure that is.
struct TimedEvent {
    double time{}; ///< s
    double se{};   ///< s, standard error
};

/// One foot's time on the ground.
struct GroundTime {
    std::optional<TimedEvent> contact; ///< none: before the clip or the followed stretch begins
    std::optional<TimedEvent> toeOff;  ///< none: after it ends
};

/// Every time the foot is on the ground, in order. Each event by several signs (see
/// contact_finder.hpp), each with the delay that it has on modelled runners taken off, weighted by
/// their errors. What is on the ground for less than 80 ms is no step.
[[nodiscard]] std::vector<GroundTime> groundTimesOf(const FootMotion& foot);

} // namespace latemile
