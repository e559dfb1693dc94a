// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <QString>

namespace latemile::ui {

/// "17.5 ± 1.4 cm at step 3, left. Of the error: marks 82 %, events 10 %, scale 8 %."
[[nodiscard]] QString tellReading(const Reading& reading, const Measure& measure);
/// What the measure is, its sign, what makes it wrong and where it comes from.
[[nodiscard]] QString tellMeasure(const Measure& measure);

} // namespace latemile::ui
