// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace latemile {

/// In which lengths a sheet is told; files keep centimetres.
enum class Lengths { Centimetres, Inches };

/// "29 August 2026" of "2026-08-29"; anything else comes back as it is.
[[nodiscard]] std::string dateWords(std::string_view isoDate);
/// "minute 6"; empty without a minute.
[[nodiscard]] std::string minuteWords(std::optional<double> minute);
/// Time for a kilometre or a mile at a speed in m/s > 0: "6:10"; a mile is 1609.344 m.
[[nodiscard]] std::string paceWords(double metresPerSecond, Lengths lengths);
/// "2.70 m/s (6:10 min/km)", "6.0 mph (9:56 min/mile)"; two speeds where they differ by more than
/// shows; "speed not stated".
[[nodiscard]] std::string speedWords(std::optional<double> fresh, std::optional<double> fatigued,
                                     std::optional<double> inclinePercent, Lengths lengths);

/// The unit as it stands on paper: "cm", "in", "°", "%", "ms", "steps/min".
[[nodiscard]] std::string unitWords(Unit unit, Lengths lengths);
/// `value` of a measure in the unit of unitWords.
[[nodiscard]] double inLengths(double value, Unit unit, Lengths lengths);
/// How many decimals of a measure are shown in those lengths at most.
[[nodiscard]] int mostDecimals(const Measure& measure, Lengths lengths);
/// A number as printed: a true minus sign for '-', a '+' before positive ones where asked.
enum class Sign { WhenNegative, Always };
[[nodiscard]] std::string printed(std::string_view number, Sign sign = Sign::WhenNegative);
/// "21.4 cm", "9°": one reading, rounded to its error.
[[nodiscard]] std::string readingWords(double value, std::optional<double> se,
                                       const Measure& measure, Lengths lengths);
/// "The foot lands 1.2 in further ahead of the hip.": a change in words, from the measure's own.
[[nodiscard]] std::string changeSentence(double change, double halfWidth, const Measure& measure,
                                         Lengths lengths);

} // namespace latemile
