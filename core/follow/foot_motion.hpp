// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"
#include "core/scene/plane.hpp"

#include <optional>
#include <vector>

namespace latemile {

/// How one end of a foot moves on one frame.
struct EndMotion {
    double height{}; ///< cm above where it stands
    double rise{};   ///< upwards, share of the range a second
    double slip{};  ///< speed over the ground as a share of the range; 0 standing, about 1 swinging
    double along{}; ///< cm in running direction
};

/// How a foot moves through a clip, seen from the ground under it.
struct FootMotion {
    std::vector<double> times; ///< s, one a frame of the clip
    std::vector<std::optional<EndMotion>> heel;
    std::vector<std::optional<EndMotion>> toe;
    double groundSpeed{}; ///< cm/s along x while the foot stands: minus the belt's speed, or none
    double range{};       ///< cm/s from standing to swinging

    /// Of the end that slips less; nothing where neither is known.
    [[nodiscard]] std::optional<double> slip(std::size_t frame) const;
    /// The end that is lower.
    [[nodiscard]] std::optional<EndMotion> lower(std::size_t frame) const;
};

/// From the marks of heel and toe of one side. Speeds are slopes of parabolas fitted over ± 16 ms
/// (at least ± 1.5 frames), on frames between marked ones too where these lie so near. The ground's
/// speed is the one the low toe keeps longest (half-sample mode, Bickel & Frühwirth 2006), so it
/// needs neither scale nor belt to be right. `cmPerUnit`: what a unit of the plane is in
/// centimetres, 1 where it has a scale. Nothing where fewer than 20 frames have a toe, or where it
/// never swings.
[[nodiscard]] std::optional<FootMotion> footMotionOf(const Marking& marking, BodySide side,
                                                     const Plane& plane, const FrameIndex& index,
                                                     double cmPerUnit);

} // namespace latemile
