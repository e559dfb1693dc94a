// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/clip_choice.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/readings_text.hpp"
#include "app/batch/word.hpp"
#include "core/json_file.hpp"
#include "core/measures/explanation.hpp"
#include "core/measures/own_measures.hpp"
#include "core/measures/readings_file.hpp"
#include "core/store/coaches.hpp"
#include "core/store/library_measures.hpp"
#include "core/whole_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    ClipChoice clip;
    std::filesystem::path own;
    std::string explain; ///< id of a measure; empty: the readings are wanted
    std::optional<int> step;
    std::filesystem::path out;
    bool unconfirmedToo{};
    bool json{};
};

/// Those asked for; of a session, without such, those of its library.
Outcome<OwnMeasures> ownOf(const Asked& asked)
{
    if (!asked.own.empty()) {
        return readOwnMeasures(asked.own);
    }
    return asked.clip.condition.empty() ? OwnMeasures() : ownMeasuresIn(libraryOf(asked.clip.clip));
}

Outcome<std::string> explained(const Asked& asked, const MarkedClip& clip, const OwnMeasures& own)
{
    const auto* measure = own.find(asked.explain);
    if (measure == nullptr) {
        return fail(Error::Kind::NotFound,
                    "There is no measure '" + asked.explain +
                        "'; the ids stand in the first column of a CSV of readings.");
    }
    const auto step = asked.step ? std::optional(StepNumber{*asked.step}) : std::nullopt;
    ASSIGN_OR_RETURN(const auto explanation, explain(clip, *measure, step));
    return asked.json ? jsonText(toJson(explanation)) : textOf(explanation);
}

Outcome<std::string> measure(const Asked& asked)
{
    const Progress progress("Reading " + asked.clip.clip.string());
    ASSIGN_OR_RETURN(const auto own, ownOf(asked));
    ASSIGN_OR_RETURN(const auto chosen, chosenClip(asked.clip));
    const auto& clip = chosen.marked;
    if (!asked.explain.empty()) {
        return explained(asked, clip, own);
    }
    ASSIGN_OR_RETURN(const auto readings, readingsOf(clip, asked.unconfirmedToo, own));
    if (!asked.out.empty()) {
        RETURN_IF_ERROR(replaceFile(asked.out, endingOf(asked.out) == ".csv"
                                                   ? readingsCsv(readings)
                                                   : jsonText(toJson(readings))));
    }
    if (asked.json) {
        return jsonText(toJson(readings));
    }
    return asked.out.empty() ? readingsText(readings)
                             : "The readings of " + std::to_string(readings.steps.size()) +
                                   " steps are in " + asked.out.string() + ".\n";
}

} // namespace

void addMeasure(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "measure", "The readings of a marked clip, each with its standard error");
    auto* condition = addClipChoice(*word, asked->clip);
    addInput(*word, "--own", asked->own, "The coach's own measures (own_measures.json)");
    auto* explain = word->add_option("--explain", asked->explain,
                                     "Instead of the readings: what this measure is and where its "
                                     "error comes from");
    word->add_option("--step", asked->step, "Of which step; else of the clip's mean")
        ->needs(explain)
        ->check(CLI::Range(1, 1000000));
    auto* out =
        addOut(*word, asked->out, {".json", ".csv"}, "The readings to write, as JSON or CSV");
    explain->excludes(out);
    word->add_flag("--unconfirmed", asked->unconfirmedToo,
                   "Count followed and proposed marks in the means too")
        ->excludes(condition)
        ->excludes(explain);
    addJson(*word, asked->json);
    word->callback([asked, word, &job] {
        needWhole(asked->clip, *word);
        job = [asked] { return measure(*asked); };
    });
}

} // namespace latemile::batch
