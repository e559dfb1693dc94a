// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/comparison_csv.hpp"

#include "core/csv.hpp"

namespace latemile {

std::string comparisonCsv(const Comparison& comparison)
{
    CsvText csv({"measure", "unit", "foot", "fresh_n", "fresh_mean", "fresh_sd", "fatigued_n",
                 "fatigued_mean", "fatigued_sd", "change", "half_width", "verdict", "reason",
                 "sentence"});
    for (const auto& row : comparison.rows) {
        const auto* measure = comparison.own.find(row.measure);
        csv.text(row.measure).text(measure != nullptr ? symbolOf(measure->unit) : "");
        csv.text(row.foot ? nameOf(*row.foot) : "both");
        for (const auto& side : {row.fresh, row.fatigued}) {
            csv.integer(side.n).number(side.mean).number(side.sd);
        }
        csv.number(row.change).number(row.halfWidth).text(nameOf(row.verdict));
        csv.text(row.reason).text(row.sentence).endRow();
    }
    return csv.whole();
}

} // namespace latemile
