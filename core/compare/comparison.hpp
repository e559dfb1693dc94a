// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparability.hpp"
#include "core/compare/prediction.hpp"
#include "core/measures/readings.hpp"
#include "core/outcome.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

enum class Verdict { ClearChange, WithinError, TooFewSteps, NotComparable };
[[nodiscard]] std::string_view nameOf(Verdict verdict); ///< "clear change", "within error", ...

/// One side of a comparison row.
struct SideOfRow {
    int n{};
    std::optional<double> mean;
    std::optional<double> sd;
};

/// One measure, fresh against fatigued. `change` = fatigued - fresh, in the measure's unit.
struct ComparisonRow {
    std::string measure;
    std::optional<Foot> foot; ///< none: both
    SideOfRow fresh;
    SideOfRow fatigued;
    std::optional<double> change;
    std::optional<double> halfWidth; ///< 95 % half-width of the change, common errors included
    Verdict verdict{};
    std::string reason;   ///< why not, or what to beware of; may be empty
    std::string sentence; ///< "The foot lands 3.1 cm further ahead of the hip."
    /// Where speed alone forbids the comparison and a published slope with speed is known.
    std::optional<SpeedEstimate> speedEstimate{};
    std::string usual{}; ///< step rate, comparable: how the change stands to the usual; else empty
};

struct Comparison {
    std::vector<ComparisonRow> rows; ///< in the order of the table of measures, then the own ones
    OwnMeasures own{};               ///< the own measures among the rows
};

/// Fresh against fatigued, measure by measure (Welch's interval; common errors of scene and
/// judgement added). What forbids a comparison (speed, incline, view, side, capture rate, shoes, a
/// bad check) becomes the verdict and reason of the rows it forbids. Own measures are compared
/// where both clips were read with the same definitions.
[[nodiscard]] Comparison compare(const Readings& fresh, const Readings& fatigued,
                                 const ClipNames& names = {});

[[nodiscard]] nlohmann::json toJson(const Comparison& comparison);

} // namespace latemile
