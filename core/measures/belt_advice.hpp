// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/checks.hpp"

#include <optional>
#include <string>

namespace latemile {

/// What most likely makes foot and belt disagree, and the one thing to change. Never changed by
/// itself: the coach decides.
struct BeltAdvice {
    enum class Cause { Agrees, CaptureRate, SpeedUnit, Scale };
    Cause cause{};
    std::optional<double> captureRate; ///< frames per real second, where that is the cause
    std::optional<double> beltSpeed;   ///< m/s, where the speed was typed in the other unit
    std::optional<double> scaleFactor; ///< what every centimetre is to be multiplied by
    std::string sentence; ///< "The foot moves 0.51 of the belt speed: ..."; with the ratio's error
};

/// From the belt's witness. A ratio within 0.95 to 1.04, or within two standard errors of 1,
/// agrees. Powers of two from 2 to 8 either way (within 6 %) point to the capture rate, 1.609 and
/// its inverse to km/h typed as mph or the reverse (within 3 %; mile = 1609.344 m), anything else
/// to the scale.
[[nodiscard]] BeltAdvice beltAdvice(const BeltWitness& belt, double captureRate, double beltSpeed);

/// How large a pixel is where the foot stands, by the belt.
struct BeltScale {
    double cmPerPixel{};
    double relativeError{}; ///< of marks, and of belts that run 1.5 % off what they show
};
/// For a clip with a belt speed and no line or corners drawn; nothing without stances whose heel or
/// toe is marked on three frames between 25 and 50 %.
[[nodiscard]] std::optional<BeltScale> scaleFromBelt(const PreparedClip& clip);

} // namespace latemile
