// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/comparison_text.hpp"

#include "app/batch/text_table.hpp"
#include "core/measures/measure.hpp"
#include "core/rounding.hpp"

namespace latemile::batch {

namespace {

std::string footWord(const std::optional<Foot>& foot)
{
    return foot ? std::string(nameOf(*foot)) : "both";
}

/// The row's numbers, all rounded to the place of the change's error.
struct RowNumbers {
    std::string fresh;
    std::string fatigued;
    std::string change;
};

RowNumbers numbersOf(const ComparisonRow& row, int most)
{
    const auto mean = [&](const SideOfRow& side) {
        return side.mean ? roundedTogether(*side.mean, row.halfWidth.value_or(0.0), most).value
                         : std::string();
    };
    RowNumbers numbers{mean(row.fresh), mean(row.fatigued), {}};
    if (row.change) {
        const auto change = roundedTogether(*row.change, row.halfWidth.value_or(0.0), most);
        numbers.change = (*row.change > 0 ? "+" : "") + change.value +
                         (row.halfWidth ? " \u00b1 " + change.error : "");
    }
    return numbers;
}

/// What stands beside the verdicts: estimates across speeds, and what is usual.
std::string notesOf(const Comparison& comparison)
{
    std::string notes;
    for (const auto& row : comparison.rows) {
        if (row.speedEstimate) {
            notes += row.speedEstimate->sentence + "\n";
        }
        if (!row.usual.empty()) {
            notes += row.usual + "\n";
        }
    }
    return notes.empty() ? notes : "\n" + notes;
}

} // namespace

std::string comparisonText(const Comparison& comparison)
{
    TextTable table({"measure", "foot", ">fresh", ">fatigued", ">change", "unit", "verdict", ""});
    for (const auto& row : comparison.rows) {
        const auto* measure = comparison.own.find(row.measure);
        const auto numbers = numbersOf(row, measure != nullptr ? measure->decimals : 9);
        table.addRow({measure != nullptr ? std::string(measure->name) : row.measure,
                      footWord(row.foot), numbers.fresh, numbers.fatigued, numbers.change,
                      measure != nullptr ? std::string(symbolOf(measure->unit)) : "",
                      std::string(nameOf(row.verdict)),
                      row.verdict == Verdict::ClearChange ? row.sentence : row.reason});
    }
    return comparison.rows.empty()
               ? "There is no measure that both clips have.\n"
               : table.text() +
                     "(change: fatigued less fresh, with the half-width of its 95 % "
                     "interval)\n" +
                     notesOf(comparison);
}

} // namespace latemile::batch
