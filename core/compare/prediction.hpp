// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <optional>
#include <string>

namespace latemile {

/// What a published slope with speed makes of the first clip's value at the second clip's speed. An
/// estimate beside a row that is not comparable, never a verdict: single runners differ from
/// groups.
struct SpeedEstimate {
    double predicted{};   ///< the second mean, had nothing but the speed changed; measure's unit
    double difference{};  ///< measured second mean less that
    std::string source;   ///< of the slope
    std::string sentence; ///< says that it is an estimate, the slope and its source
    bool operator==(const SpeedEstimate&) const = default;
};

/// Two means of a measure at two speeds, m/s, both > 0. Nothing for a measure without a published
/// slope (step rate and contact time have one) and for speeds more than a quarter apart, where a
/// straight line is no longer to be trusted (choice of this project).
[[nodiscard]] std::optional<SpeedEstimate> estimateAcrossSpeeds(const Measure& measure,
                                                                double firstMean, double firstSpeed,
                                                                double secondMean,
                                                                double secondSpeed);

/// How a change of the step rate stands to what tiring does to it, as a sentence; empty for every
/// other measure. Never against a number every runner ought to have: there is none.
[[nodiscard]] std::string againstTheUsual(const Measure& measure, double freshMean, double change);

} // namespace latemile
