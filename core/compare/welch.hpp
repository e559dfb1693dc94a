// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile {

/// Mean and spread of one group of steps; `strata` groups (feet) had their own mean taken out of
/// the SD.
struct StepSpread {
    int n{};
    double mean{};
    double sd{};
    int strata{1};
};

/// Difference of two means with unequal spreads (Welch 1947), second minus first.
struct WelchDifference {
    double difference{};
    double standardError{};
    double degreesOfFreedom{}; ///< fractional
    double quantile{};         ///< Student t, two-sided 95 %
    [[nodiscard]] double halfWidth() const { return quantile * standardError; }
};

/// Needs n > strata in both groups. Two groups without any spread: an error of 0 and a quantile
/// of 1.96.
[[nodiscard]] WelchDifference welchDifference(const StepSpread& first, const StepSpread& second);

/// Student's t: the quantile that leaves `probability` below it.
[[nodiscard]] double studentQuantile(double probability, double degreesOfFreedom);

} // namespace latemile
