// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/explanation.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <QString>

namespace latemile::ui {

/// "Foot ahead of hip, step 3: 17.5 ± 1.4 cm."
[[nodiscard]] QString tellReading(const Reading& reading, const Measure& measure);
/// "Error ± 1.4 cm: marks of the near hip 1.20 (73 %), marks of the near ankle 0.50 (13 %), contact
/// 0.44 (10 %). They add in quadrature." and what would help most. Empty without an error.
[[nodiscard]] QString tellSources(const Explanation& explanation, const Measure& measure);
/// The same of a mean, and of how many steps it is where the error from its sources is larger than
/// the spread of its steps shows.
[[nodiscard]] QString tellMeanSources(const Explanation& explanation, const Summary& summary,
                                      const Measure& measure);
/// What the measure is, its sign, what makes it wrong and where it comes from.
[[nodiscard]] QString tellMeasure(const Measure& measure);

} // namespace latemile::ui
