// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <vector>

namespace latemile {

/// Each measure over the steps of a clip, in the order of the table: one row a foot for Feet::Near,
/// Each and Rear, and one for both feet where more than one foot has values. Upper-body measures
/// (Feet::Together) get the one row for both: equal numbers of left and right steps, the earliest,
/// and the spread within each foot. Values that are not confirmed are left out unless
/// `unconfirmedToo`.
[[nodiscard]] std::vector<Summary> summariesOf(const std::vector<Reading>& readings,
                                               bool unconfirmedToo, const OwnMeasures& own = {});

/// The factor on the SD over steps for the error of their mean: above 1 where neighbouring values
/// share an event, so that they average out less than independent ones and differ less than they
/// vary.
[[nodiscard]] double widenedBy(const Measure& measure, int n);

} // namespace latemile
