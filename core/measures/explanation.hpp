// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// Where a number's error comes from.
struct ErrorSource {
    std::string name;  ///< "marks of the hip", "contact", "scale", "belt speed", "the runner's own
                       ///< spread of steps"
    double variance{}; ///< in the measure's unit, squared
    double share{};    ///< of the whole variance, 0 to 1
};

/// Something a coach could do, and what the error would be then.
struct Remedy {
    std::string what; ///< "film at twice the frame rate"
    double seAfter{}; ///< worked out from the sources it acts on
    std::string sentence;
};

/// A mark that entered a value.
struct MarkUsed {
    MarkKey key;
    Mark mark;
    double sePx{}; ///< stated, or by default
};

/// What a number is and why it is as sure as it is. A value; both screen and latemile-batch show
/// it.
struct Explanation {
    std::string measure; ///< id
    std::string name;
    std::string unit;
    int decimals{};
    std::string meaning;
    std::string positive; ///< the sign in words
    std::string instant;
    std::string traps;
    std::string source;
    double floor{};
    std::optional<StepNumber> step; ///< none: of the clip's mean
    std::optional<Foot> foot;       ///< none: both
    int steps{};                    ///< that the mean is of; 1 where it is of a step
    std::optional<double> value;
    std::optional<double> se;
    std::string reason;               ///< why there is no value, or what to beware of
    std::vector<MarkUsed> marks;      ///< of a step; empty for the mean
    std::vector<ErrorSource> sources; ///< largest first; they add up to se squared
    std::vector<Remedy> remedies;     ///< most helpful first; each lowers the error by 5 % at least
};

/// Of one step's reading, or of the clip's mean over the steps that have one (confirmed or not). A
/// step the clip does not have is an Error; a value that cannot be had says why.
Outcome<Explanation> explain(const MarkedClip& clip, const Measure& measure,
                             std::optional<StepNumber> step);

/// Of which steps a mean is: of one foot or of both, all of them or the confirmed ones alone.
struct MeanOf {
    std::optional<Foot> foot{}; ///< none: both
    bool confirmedOnly{};
};
/// Of such a mean of a clip. Measures of both feet together take equal numbers of left and right
/// steps and their spread within each foot, as the summaries do.
Outcome<Explanation> explainMean(const MarkedClip& clip, const Measure& measure, const MeanOf& of);

/// For a person at a terminal.
[[nodiscard]] std::string textOf(const Explanation& explanation);
/// As resources/schema/explanation.schema.json.
[[nodiscard]] nlohmann::json toJson(const Explanation& explanation);

} // namespace latemile
