// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_rows.hpp"

#include "core/compare/rounding.hpp"

#include <algorithm>

namespace latemile {
namespace {

constexpr const char* noNumber = "\u2013";

const ComparisonRow* rowOf(const Comparison& comparison, const std::string& measure, Foot nearFoot)
{
    const ComparisonRow* best = nullptr;
    for (const ComparisonRow& row : comparison.rows) {
        if (row.measure != measure) {
            continue;
        }
        const bool better = !row.foot || (row.foot == nearFoot && (!best || best->foot));
        if (!best || better) {
            best = &row;
        }
    }
    return best;
}

std::string meanText(const std::optional<double>& mean, const Measure& measure, int decimals,
                     Lengths lengths)
{
    return mean ? printed(fixedText(inLengths(*mean, measure.unit, lengths), decimals)) : noNumber;
}

/// The sentence of the comparison, told again where its lengths are not those asked for.
std::string sentenceOf(const ComparisonRow& row, const Measure& measure, Lengths lengths)
{
    const bool retell = lengths == Lengths::Inches && row.verdict == Verdict::ClearChange &&
                        unitWords(measure.unit, lengths) == "in" && row.change;
    return retell ? changeSentence(*row.change, row.halfWidth.value_or(0.0), measure, lengths)
                  : row.sentence;
}

} // namespace

std::vector<ComparisonRow> rowsForSheet(const Comparison& comparison,
                                        const std::vector<std::string>& measures, Foot nearFoot)
{
    std::vector<ComparisonRow> rows;
    for (const std::string& measure : measures) {
        if (const ComparisonRow* row = rowOf(comparison, measure, nearFoot)) {
            rows.push_back(*row);
        }
    }
    return rows;
}

std::string letterOf(std::size_t row)
{
    return row < 26 ? std::string(1, static_cast<char>('A' + row)) : std::string();
}

SheetRow sheetRow(const ComparisonRow& row, std::string letter, Lengths lengths)
{
    SheetRow told;
    told.letter = std::move(letter);
    told.verdict = row.verdict;
    told.reason = row.reason;
    const Measure* measure = findMeasure(row.measure);
    if (!measure) {
        told.name = row.measure;
        told.sentence = row.sentence;
        told.fresh = told.fatigued = told.change = noNumber;
        return told;
    }
    told.name = measure->name;
    told.unit = unitWords(measure->unit, lengths);
    told.sentence = sentenceOf(row, *measure, lengths);
    const double half = inLengths(row.halfWidth.value_or(0.0), measure->unit, lengths);
    const int most = mostDecimals(*measure, lengths);
    const int decimals = half > 0.0 ? std::min(decimalsFor(half), most) : most;
    told.fresh = meanText(row.fresh.mean, *measure, decimals, lengths);
    told.fatigued = meanText(row.fatigued.mean, *measure, decimals, lengths);
    told.change = noNumber;
    const bool judged = row.verdict == Verdict::ClearChange || row.verdict == Verdict::WithinError;
    if (row.change && judged) { // a refused change in figures would be read as one all the same
        const auto pair =
            roundedTogether(inLengths(*row.change, measure->unit, lengths), half, most);
        told.change = printed(pair.value, Sign::Always);
        if (half > 0.0) {
            told.change += " \u00b1 " + pair.error;
        }
    }
    return told;
}

} // namespace latemile
