// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/comparison_text.hpp"
#include "app/batch/word.hpp"
#include "core/compare/comparison_csv.hpp"
#include "core/json_file.hpp"
#include "core/measures/readings_file.hpp"
#include "core/whole_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path fresh;
    std::filesystem::path fatigued;
    std::filesystem::path out;
    bool json{};
};

Outcome<std::string> compareFiles(const Asked& asked)
{
    ASSIGN_OR_RETURN(const auto fresh, readReadings(asked.fresh));
    ASSIGN_OR_RETURN(const auto fatigued, readReadings(asked.fatigued));
    const auto comparison = compare(fresh, fatigued);
    if (!asked.out.empty()) {
        RETURN_IF_ERROR(replaceFile(asked.out, endingOf(asked.out) == ".csv"
                                                   ? comparisonCsv(comparison)
                                                   : jsonText(toJson(comparison))));
    }
    if (asked.json) {
        return jsonText(toJson(comparison));
    }
    return asked.out.empty() ? comparisonText(comparison)
                             : "The comparison is in " + asked.out.string() + ".\n";
}

} // namespace

void addCompare(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "compare", "Fresh against fatigued, measure by measure, each with a verdict");
    addPath(*word, "FRESH", asked->fresh, "Readings of the fresh clip (READINGS.json)");
    addPath(*word, "FATIGUED", asked->fatigued, "Readings of the fatigued clip (READINGS.json)");
    addOut(*word, asked->out, {".json", ".csv"}, "The comparison to write, as JSON or CSV");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return compareFiles(*asked); }; });
}

} // namespace latemile::batch
