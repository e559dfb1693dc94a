// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/repeatability.hpp"
#include "core/measures/readings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// How well two markings of the same frames agree at one landmark; pixels, first - second.
struct LandmarkRepeat {
    Landmark landmark{};
    Agreement across; ///< along the picture's rows
    Agreement down;   ///< along its columns
    double cmPerPixel{};
    /// Standard error of one mark per axis, cm: the within-target SD of both axes together.
    [[nodiscard]] double clickError() const;
};

/// How well they agree in what is read from them.
struct MeasureRepeat {
    std::string measure; ///< id
    Agreement agreement; ///< in the measure's unit, first - second
    double typicalError{};
    double mdc95{};                    ///< of a single reading
    std::optional<WithInterval> icc21; ///< none: the steps do not differ
    std::optional<WithInterval> icc31;
    std::vector<double> first; ///< one a step, for the plot of differences against means
    std::vector<double> second;
};

struct RepeatResult {
    std::vector<LandmarkRepeat> landmarks; ///< of at least three pairs, in body order
    std::vector<MeasureRepeat> measures;   ///< of at least three steps, in the table's order
    int pairs{};                           ///< of marks in all
};

/// `second` is of the same clip, by the same coach again or by another one; only frames and
/// landmarks that both placed count, and only readings all of whose marks both placed. Timings
/// need no mark and say nothing of it: they are left out. No pair in common is an Error.
Outcome<RepeatResult> repeatResult(const MarkedClip& first, const Marking& second);

/// Pairs a landmark needs before its own error replaces the default (a choice of this project):
/// with ten the error's own standard error is about a quarter of it.
inline constexpr int fewestPairs = 10;
/// The coach's own errors as far as enough pairs tell them.
[[nodiscard]] ClickErrors clickErrorsOf(const RepeatResult& result);

} // namespace latemile
