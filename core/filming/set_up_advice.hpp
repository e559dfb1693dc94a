// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/camera_set_up.hpp"
#include "core/measures/readings.hpp"

#include <string>
#include <vector>

namespace latemile {

/// One thing said about a set-up or a clip: whether it is in order, and a sentence with its
/// numbers.
struct Remark {
    std::string about; ///< id: "height", "rate", "shutter", "distance"
    Check::State state{};
    std::string sentence;
    bool operator==(const Remark&) const = default;
};

/// What is good about a set-up and what would make it better, in the order in which a coach can do
/// something about it: distance and lens, frame rate, shutter.
///   height    the picture shows the whole runner with a hand's breadth above and below, yet the
///             runner fills at least half of it
///   distance  from 3 m on a part 10 cm nearer reads at most 3.4 % too long
///   rate      120 frames/s or more; under 60 no timings
///   shutter   a foot on the belt smears no more than the 0.5 cm an ankle is marked to
[[nodiscard]] std::vector<Remark> adviceOn(const CameraSetUp& setUp,
                                           const PictureGeometry& geometry);

/// Height of the lens above the belt: that of the hip, 0.53 of stature (Drillis & Contini 1966), so
/// that head and feet are seen at equal slants.
[[nodiscard]] double lensHeightCm(double statureCm, std::optional<double> legLengthCm);

/// The longest usual shutter (1/250, 1/500, 1/1000 ...) that smears a foot on the belt by 0.5 cm at
/// most and fits the frame rate, as its denominator.
[[nodiscard]] int shutterFor(double speed, double captureRate);

} // namespace latemile
