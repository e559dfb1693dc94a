// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/simulation/coverage_text.hpp"

#include "core/measures/measure.hpp"
#include "core/rounding.hpp"

namespace latemile::simulation {

namespace {

std::string orDash(int of, double value, int decimals = 1)
{
    return of > 0 ? fixedText(value, decimals) : "-";
}

std::string rowOf(const std::string& id, const Measure& measure, const Counts& counts)
{
    // An error of a fiftieth of the floor is still to be seen.
    const int decimals = measure.floor < 0.1 ? 4 : measure.floor < 1.0 ? 3 : 2;
    std::string row =
        "| " + id + " | " + std::string(symbolOf(measure.unit)) + " | " +
        std::to_string(counts.readings) + " | " +
        orDash(counts.readings, counts.readingCoverage()) + " | " +
        orDash(counts.readings, counts.bias(), decimals) + " | " +
        orDash(counts.readings, counts.errorSd(), decimals) + " | " +
        orDash(counts.readings, counts.statedSe(), decimals) + " | " +
        orDash(counts.means, counts.meanCoverage()) + " | " + std::to_string(counts.pairs) + " | " +
        orDash(counts.pairs, counts.falseClear()) + " | " + fixedText(measure.floor, 2) + " |";
    for (std::size_t i = 0; i < changes.size(); ++i) {
        row += " " + orDash(counts.pairs, counts.power(i), 0) + " |";
    }
    return row + "\n";
}

} // namespace

std::string tableOf(const Result& result)
{
    std::string text =
        "| measure | unit | readings | coverage % | bias | SD of errors | stated | coverage of "
        "means % | pairs | false clear % | floor | power 1 x | 1.5 x | 2 x | 3 x |\n"
        "| --- | --- | --: | --: | --: | --: | --: | --: | --: | --: | --: | --: | --: | --: | "
        "--: |\n";
    for (const auto& measure : measureTable()) {
        for (const auto& id : {std::string(measure.id), std::string(measure.id) + " of the clip"}) {
            if (const auto found = result.byMeasure.find(id); found != result.byMeasure.end()) {
                text += rowOf(id, measure, found->second);
            }
        }
    }
    return text;
}

std::string summaryOf(const Result& result)
{
    std::string outside;
    std::string wrong;
    int inside = 0;
    double worst = 0.0;
    for (const auto& [id, counts] : result.byMeasure) {
        if (counts.readings > 0) {
            const double coverage = counts.readingCoverage();
            const bool good = coverage >= 93.0 && coverage <= 97.0;
            inside += good ? 1 : 0;
            outside += good ? "" : " " + id + " " + fixedText(coverage, 1);
        }
        worst = std::max(worst, counts.falseClear());
        wrong += counts.falseClear() > 5.0 ? " " + id : "";
    }
    return std::to_string(result.clips) + " clips; readings of " + std::to_string(inside) +
           " measures covered by 93 to 97 %; outside:" + (outside.empty() ? " none" : outside) +
           "; false clear changes at most " + fixedText(worst, 1) +
           " %; above 5 %:" + (wrong.empty() ? " none" : wrong) + "; " +
           std::to_string(result.notComparable) + " pairs with a bad check.";
}

} // namespace latemile::simulation
