// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/readings_text.hpp"

#include "app/batch/text_table.hpp"
#include "core/measures/measure.hpp"
#include "core/rounding.hpp"

#include <algorithm>
#include <map>

namespace latemile::batch {

namespace {

std::string counted(std::size_t count, const std::string& thing)
{
    return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

std::string clipText(const Readings& readings)
{
    const auto& clip = readings.clip;
    const double rate = clip.frameInterval.count() > 0 ? 1.0 / clip.frameInterval.count() : 0.0;
    return clip.file + ": " + counted(readings.steps.size(), "step") + ", " +
           counted(static_cast<std::size_t>(clip.frames), "frame") + " at " + fixedText(rate, 1) +
           " frames/s\n";
}

std::string checksText(const Readings& readings)
{
    TextTable table({"check", "state", ""});
    for (const auto& check : readings.checks) {
        table.addRow({check.check, std::string(nameOf(check.state)), check.sentence});
    }
    return readings.checks.empty() ? "" : "\n" + table.text();
}

std::string summaryText(const Readings& readings)
{
    TextTable table({"measure", "foot", ">n", ">mean", ">error", ">spread", "unit"});
    for (const auto& row : readings.summary) {
        const auto* measure = readings.own.find(row.measure);
        const int decimals = measure != nullptr ? measure->decimals : 9;
        const auto mean = roundedTogether(row.mean, row.se, decimals);
        table.addRow({measure != nullptr ? std::string(measure->name) : row.measure,
                      row.foot ? std::string(nameOf(*row.foot)) : "both", std::to_string(row.n),
                      mean.value, "\u00b1 " + mean.error,
                      row.sd ? fixedText(*row.sd, decimals) : "",
                      measure != nullptr ? std::string(symbolOf(measure->unit)) : ""});
    }
    return readings.summary.empty() ? "\nNo confirmed step has a value: confirm marks, or count "
                                      "all with --unconfirmed.\n"
                                    : "\n" + table.text() +
                                          "(error: one standard error of the mean; spread: one "
                                          "standard deviation over steps)\n";
}

std::string missingText(const Readings& readings)
{
    std::map<std::pair<std::string, std::string>, int> counts;
    for (const auto& reading : readings.readings) {
        if (!reading.value) {
            ++counts[{reading.measure, reading.reason}];
        }
    }
    TextTable table({"no value", ">times", "why"});
    for (const auto& [what, count] : counts) {
        const auto* measure = readings.own.find(what.first);
        table.addRow({measure != nullptr ? std::string(measure->name) : what.first,
                      std::to_string(count), what.second});
    }
    return counts.empty() ? "" : "\n" + table.text();
}

} // namespace

std::string readingsText(const Readings& readings)
{
    return clipText(readings) + checksText(readings) + summaryText(readings) +
           missingText(readings);
}

} // namespace latemile::batch
