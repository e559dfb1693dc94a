// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/comparison_text.hpp"
#include "app/batch/session_folder.hpp"
#include "app/batch/word.hpp"
#include "core/compare/comparison_csv.hpp"
#include "core/json_file.hpp"
#include "core/measures/readings_file.hpp"
#include "core/store/coaches.hpp"
#include "core/store/library_measures.hpp"
#include "core/whole_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path fresh; ///< or a session's folder, and then alone
    std::filesystem::path fatigued;
    std::filesystem::path out;
    bool json{};
};

Outcome<Readings> readingsIn(const std::filesystem::path& folder, const OpenedSession& opened,
                             std::string_view condition, const OwnMeasures& own)
{
    const auto* clip = findClip(opened.session, condition);
    if (clip == nullptr) {
        return fail(Error::Kind::NotFound, "There is no " + std::string(condition) +
                                               " clip filmed from the side in " + folder.string() +
                                               ".");
    }
    return readingsOf(folder, opened.session, *clip, factsOf(opened.athlete), own);
}

Outcome<Comparison> compareSession(const std::filesystem::path& folder)
{
    ASSIGN_OR_RETURN(const auto opened, openSessionFolder(folder));
    ASSIGN_OR_RETURN(const auto own, ownMeasuresIn(libraryOf(folder)));
    ASSIGN_OR_RETURN(const auto fresh, readingsIn(folder, opened, "fresh", own));
    ASSIGN_OR_RETURN(const auto fatigued, readingsIn(folder, opened, "fatigued", own));
    return compare(fresh, fatigued);
}

/// No verdict rests on what no coach has looked at.
Outcome<Readings> confirmedReadings(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(auto readings, readReadings(file));
    if (readings.unconfirmedToo) {
        return fail(Error::Kind::Inconsistent,
                    file.string() + " counts marks that nobody confirmed, and no verdict is given "
                                    "on them: confirm them, and measure again without "
                                    "--unconfirmed.");
    }
    return readings;
}

Outcome<Comparison> compareFiles(const Asked& asked)
{
    ASSIGN_OR_RETURN(const auto fresh, confirmedReadings(asked.fresh));
    ASSIGN_OR_RETURN(const auto fatigued, confirmedReadings(asked.fatigued));
    return compare(fresh, fatigued);
}

Outcome<std::string> compareAsked(const Asked& asked)
{
    ASSIGN_OR_RETURN(const auto comparison,
                     asked.fatigued.empty() ? compareSession(asked.fresh) : compareFiles(asked));
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
    addPath(*word, "FRESH", asked->fresh,
            "Readings of the fresh clip (READINGS.json); or a session's folder alone");
    addInput(*word, "FATIGUED", asked->fatigued, "Readings of the fatigued clip (READINGS.json)")
        ->type_name("");
    addOut(*word, asked->out, {".json", ".csv"}, "The comparison to write, as JSON or CSV");
    addJson(*word, asked->json);
    word->callback([asked, &job] {
        std::error_code ignored;
        if (asked->fatigued.empty() && !std::filesystem::is_directory(asked->fresh, ignored)) {
            throw CLI::RequiredError("FATIGUED");
        }
        job = [asked] { return compareAsked(*asked); };
    });
}

} // namespace latemile::batch
