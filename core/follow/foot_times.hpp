// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/ground_times.hpp"

namespace latemile {

/// What is known of one foot's times on the ground.
struct FootTimes {
    BodySide side{};
    FootMotion motion;
    std::vector<GroundTime> times;
    /// Whether heel and toe are known to a centimetre, by the median of their errors. Then each
    /// event is told best by itself.
    bool isSure{};
};

/// What a unit of the plane is in centimetres: 1 where it has a scale, else roughly by the runner.
[[nodiscard]] double cmPerUnit(const Marking& marking, const Plane& plane);

/// By the marks alone, one entry a side whose heel and toe are marked on enough frames: near, then
/// far. Events of a foot that is not sure are set right by each other (like_steps.hpp).
[[nodiscard]] std::vector<FootTimes> footTimesOf(const Marking& marking, const Plane& plane,
                                                 const FrameIndex& index);

} // namespace latemile
