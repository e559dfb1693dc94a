// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_rows.hpp"

#include "core/rounding.hpp"

#include <algorithm>
#include <cmath>

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

/// As many as the error deserves; one more where a clear change would else look no larger than its
/// error.
int decimalsShown(const ComparisonRow& row, const Measure& measure, double half, Lengths lengths)
{
    const int most = mostDecimals(measure, lengths);
    if (half <= 0.0) {
        return most;
    }
    const int decimals = std::min(decimalsFor(half), most);
    const double change = std::abs(inLengths(row.change.value_or(0.0), measure.unit, lengths));
    const bool looksEqual = fixedText(change, decimals) == fixedText(half, decimals);
    return row.verdict == Verdict::ClearChange && looksEqual ? decimals + 1 : decimals;
}

/// "+3.1 ± 1.2"; an error below the last place shows as one of it, never as nothing.
std::string changeText(double change, double half, int decimals)
{
    const std::string text = printed(fixedText(change, decimals), Sign::Always);
    const double smallest = std::pow(10.0, -decimals);
    return half > 0.0 ? text + " \u00b1 " + fixedText(std::max(half, smallest), decimals) : text;
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

SheetRow sheetRow(const ComparisonRow& row, std::string letter, Lengths lengths,
                  const OwnMeasures& own)
{
    SheetRow told;
    told.letter = std::move(letter);
    told.verdict = row.verdict;
    told.reason = row.reason;
    told.fresh = told.fatigued = told.change = noNumber;
    const Measure* measure = own.find(row.measure);
    if (!measure) {
        told.name = row.measure;
        told.sentence = row.sentence;
        return told;
    }
    told.name = measure->name;
    told.unit = unitWords(measure->unit, lengths);
    told.sentence = sentenceOf(row, *measure, lengths);
    const double half = inLengths(row.halfWidth.value_or(0.0), measure->unit, lengths);
    const int decimals = decimalsShown(row, *measure, half, lengths);
    told.fresh = meanText(row.fresh.mean, *measure, decimals, lengths);
    told.fatigued = meanText(row.fatigued.mean, *measure, decimals, lengths);
    const bool judged = row.verdict == Verdict::ClearChange || row.verdict == Verdict::WithinError;
    if (row.change && judged) { // a refused change in figures would be read as one all the same
        const double change = inLengths(*row.change, measure->unit, lengths);
        told.change = changeText(change, half, decimals);
    }
    return told;
}

} // namespace latemile
