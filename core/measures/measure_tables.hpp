// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"

#include <string_view>
#include <vector>

namespace latemile {

// Placement error of a difference between filming days, one SD: the published smallest detectable
// difference over 1.96 where there is one, else the first four (choices of this project).
inline constexpr double angleBetweenDays = 2.0;  ///< degrees
inline constexpr double offsetBetweenDays = 1.4; ///< centimetres
inline constexpr double timeBetweenDays = 5.0;   ///< milliseconds
inline constexpr double handBetweenDays = 2.8;   ///< % of a trunk of 50 cm: 1.4 cm
/// Dingenen 2018, Phys Ther Sport 33:40: SDD 2.2 to 4.8 degrees, the larger taken.
inline constexpr double shankBetweenDays = 4.8 / 1.96;
/// Guadagnin 2025, Braz J Mot Behav 19: MDC up to 4.3 degrees.
inline constexpr double kneeBetweenDays = 4.3 / 1.96;

inline constexpr std::string_view ownChoice =
    "Definition and floor: choice of this project; no published norm found.";
inline constexpr std::string_view runnerTimes =
    "Karamanidis & Arampatzis 2005, J Exp Biol: contact 271-284 ms, flight 80-112 ms at an easy "
    "pace.";

/// The parts of the table, in its order.
[[nodiscard]] std::vector<Measure> upperBodyMeasures();
[[nodiscard]] std::vector<Measure> legMeasures();
[[nodiscard]] std::vector<Measure> swingMeasures(); ///< of toe-off and of the leg behind
[[nodiscard]] std::vector<Measure> timingMeasures();
[[nodiscard]] std::vector<Measure> rearMeasures();

} // namespace latemile
