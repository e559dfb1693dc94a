// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/explanation.hpp"
#include "core/measures/propagation.hpp"

#include <vector>

namespace latemile {

/// The variance of a value by what can be done about it; in the measure's unit, squared.
struct ErrorBudget {
    DetailedShares detail{};
    double scale{};
    double plumb{};
    double belt{};
    double commonEvents{}; ///< judgement all steps share
    double spread{};       ///< of a mean: the runner's own steps differ
    int steps{1};          ///< that the independent parts were divided by already
    [[nodiscard]] double sum() const;
    [[nodiscard]] double ofMarks() const;
    [[nodiscard]] double ofEvents() const; ///< without the common part
};

/// What would lower the error, each worked out from the parts of the budget it acts on.
[[nodiscard]] std::vector<Remedy> remediesFor(const ErrorBudget& budget, const PreparedClip& clip,
                                              const Measure& measure);

} // namespace latemile
