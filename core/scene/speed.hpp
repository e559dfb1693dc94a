// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <array>
#include <string>
#include <string_view>

namespace latemile {

/// How runners and treadmills say a speed.
enum class SpeedUnit { MinutesPerKm, MinutesPerMile, KmPerHour, MilesPerHour, MetresPerSecond };
inline constexpr std::array allSpeedUnits{SpeedUnit::MinutesPerKm, SpeedUnit::MinutesPerMile,
                                          SpeedUnit::KmPerHour, SpeedUnit::MilesPerHour,
                                          SpeedUnit::MetresPerSecond};
[[nodiscard]] std::string_view symbolOf(SpeedUnit unit); ///< "min/km", "min/mile", "km/h", ...

/// "6:10", "6.5", "10,2": metres a second. A pace may be minutes and seconds or minutes with
/// decimals. What is no number, and speeds outside 0.5 to 13 m/s (a slow walk; faster than any
/// runner), are faults.
Outcome<double> speedFrom(std::string_view text, SpeedUnit unit);
/// As it would be typed: "6:10" for a pace, two decimals for m/s, one for the others.
[[nodiscard]] std::string speedText(double metresPerSecond, SpeedUnit unit);

} // namespace latemile
