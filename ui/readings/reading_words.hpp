// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <QString>

namespace latemile::ui {

/// "Foot ahead of hip, step 3: 17.5 ± 1.4 cm."
[[nodiscard]] QString tellReading(const Reading& reading, const Measure& measure);
/// "Error ± 1.4 cm: marks 1.27 (82 %), contact and toe-off 0.44 (10 %), scale 0.40 (8 %). They add
/// in quadrature." Empty without an error.
[[nodiscard]] QString tellSources(const Reading& reading, const Measure& measure);
/// What the measure is, its sign, what makes it wrong and where it comes from.
[[nodiscard]] QString tellMeasure(const Measure& measure);

} // namespace latemile::ui
