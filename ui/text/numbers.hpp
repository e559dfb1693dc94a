// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/quantities.hpp"

#include <QString>

#include <optional>

namespace latemile::ui {

/// A number with a true minus sign, which is as wide as a figure.
[[nodiscard]] QString numberText(double value, int decimals);
/// The same for a number that is text already.
[[nodiscard]] QString withTrueMinus(QString number);
/// The unit as people read it: "cm", "°", "steps/min"; empty for None.
[[nodiscard]] QString unitText(Unit unit);
/// "17.5 cm", "9.6°".
[[nodiscard]] QString valueText(double value, const Measure& measure);
/// "17.5 ± 1.1 cm".
[[nodiscard]] QString valueText(double value, double error, const Measure& measure);
/// The same with value and error rounded together to what the error deserves; without an error the
/// value alone.
[[nodiscard]] QString roundedText(double value, std::optional<double> error,
                                  const Measure& measure);
/// "1.4 cm": an error alone, rounded as it would be beside its value.
[[nodiscard]] QString errorText(double error, const Measure& measure);
/// "1.234 s".
[[nodiscard]] QString timeText(Seconds time);
/// "+12.5 ms".
[[nodiscard]] QString millisecondsText(Seconds time);

} // namespace latemile::ui
