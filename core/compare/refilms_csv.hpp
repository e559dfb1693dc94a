// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/refilms.hpp"

#include <string>
#include <vector>

namespace latemile {

/// Courses as a tidy table, a row a measure, condition and filming day: measure, unit, foot,
/// condition, date, minute, n, mean, half_width (95 %), not_comparable (why, else empty); and in
/// the row of the newest day change_since_last, change_half_width, verdict_since_last, held_since,
/// slope_a_month with its 95 % interval slope_low and slope_high, verdict_of_slope.
[[nodiscard]] std::string coursesCsv(const std::vector<Course>& fresh,
                                     const std::vector<Course>& fatigued);

} // namespace latemile
