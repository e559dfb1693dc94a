// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/about_file.hpp"
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/runner_box.hpp"
#include "app/batch/seen_runner.hpp"
#include "app/batch/text_table.hpp"
#include "app/batch/word.hpp"
#include "app/resource_folder.hpp"
#include "core/compare/comparison.hpp"
#include "core/follow/contact_finder.hpp"
#include "core/json_file.hpp"
#include "core/json_or_null.hpp"
#include "core/marks/marks_file.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/readings_file.hpp"
#include "core/propose/proposals.hpp"
#include "core/propose/runner_search.hpp"
#include "core/propose/search_frames.hpp"
#include "core/rounding.hpp"
#include "core/store/marked_clip.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path fresh;
    std::filesystem::path late;
    std::filesystem::path scene;
    std::filesystem::path out; ///< a folder; empty: nothing is written
    std::optional<Box> box;
    bool json{};
};

struct Screened {
    MarkedClip clip;
    Readings readings;
    std::vector<std::string> remarks;
};

/// All that can be had of a clip without a hand: landmarks, contacts, readings.
Outcome<Screened> screened(ClipReader& reader, const std::filesystem::path& file,
                           const Scene& scene, const std::optional<Box>& box,
                           PoseNetworks& networks)
{
    RETURN_IF_ERROR(needWholeStep(reader.index()));
    ASSIGN_OR_RETURN(const auto paths, seenRunner(reader, file, networks,
                                                  framesToSearch(reader.index()), box, scene.view));
    SessionClip clip;
    clip.file = file.string();
    clip.scene = scene;
    clip.marking.marks = marksOf(proposalsFrom(paths, {}));
    ASSIGN_OR_RETURN(auto contacts, findContacts(reader, clip.marking, scene));
    clip.marking.stances = std::move(contacts.stances);
    Screened result;
    result.clip = markedClipOf(clip, {}, reader.facts(), reader.index(), {});
    ASSIGN_OR_RETURN(result.readings, readingsOf(result.clip, true));
    result.remarks = paths.remarks;
    result.remarks.insert(result.remarks.end(), contacts.remarks.begin(), contacts.remarks.end());
    return result;
}

/// What a change looks like before anybody has confirmed a mark. No verdict: that word is kept for
/// what a coach stands behind.
std::string_view looksOf(const ComparisonRow& row)
{
    switch (row.verdict) {
    case Verdict::ClearChange:
        return "changed";
    case Verdict::WithinError:
        return "alike";
    case Verdict::TooFewSteps:
    case Verdict::NotComparable:
        return "cannot be told";
    }
    return "";
}

nlohmann::json toScreening(const Comparison& comparison, const Screened& fresh,
                           const Screened& late)
{
    auto rows = nlohmann::json::array();
    for (const auto& row : comparison.rows) {
        const auto* measure = comparison.own.find(row.measure);
        rows.push_back({{"measure", row.measure},
                        {"unit", measure ? std::string(symbolOf(measure->unit)) : std::string()},
                        {"foot", row.foot ? std::string(nameOf(*row.foot)) : std::string("both")},
                        {"fresh", orNull(row.fresh.mean)},
                        {"late", orNull(row.fatigued.mean)},
                        {"change", orNull(row.change)},
                        {"half_width", orNull(row.halfWidth)},
                        {"looks", looksOf(row)}});
    }
    return {{"version", 1},
            {"unconfirmed", true},
            {"fresh_steps", fresh.readings.steps.size()},
            {"late_steps", late.readings.steps.size()},
            {"rows", rows},
            {"fresh_remarks", fresh.remarks},
            {"late_remarks", late.remarks}};
}

std::string textOf(const Comparison& comparison)
{
    TextTable table({"measure", "foot", ">fresh", ">late", ">change", "unit", "looks"});
    for (const auto& row : comparison.rows) {
        const auto* measure = comparison.own.find(row.measure);
        const int most = measure ? measure->decimals : 9;
        const double error = row.halfWidth.value_or(0.0);
        const auto text = [&](const std::optional<double>& value) {
            return value ? roundedTogether(*value, error, most).value : std::string();
        };
        const auto change =
            row.change && row.halfWidth
                ? text(row.change) + " ± " + roundedTogether(*row.change, error, most).error
                : text(row.change);
        table.addRow({measure ? std::string(measure->name) : row.measure,
                      row.foot ? std::string(nameOf(*row.foot)) : "both", text(row.fresh.mean),
                      text(row.fatigued.mean), change,
                      measure ? std::string(symbolOf(measure->unit)) : "",
                      std::string(looksOf(row))});
    }
    return "UNCONFIRMED: no coach has looked at a single mark of these clips. Use this to choose "
           "which clips to look at, and tell nobody a number of it. Its ± is from step to step; "
           "what proposals err by in another posture is not in it.\n\n" +
           table.text();
}

Outcome<void> write(const std::filesystem::path& folder, const std::string& name,
                    const Screened& clip)
{
    RETURN_IF_ERROR(replaceFile(folder / (name + ".MARKS.csv"),
                                marksText(clip.clip.marking.marks, clip.clip.index)));
    RETURN_IF_ERROR(
        replaceFile(folder / (name + ".CONTACTS.csv"), contactsText(clip.clip.marking.stances)));
    return replaceFile(folder / (name + ".READINGS.json"), jsonText(toJson(clip.readings)));
}

Outcome<void> writeAll(const std::filesystem::path& folder, const Screened& fresh,
                       const Screened& late, const nlohmann::json& screening)
{
    std::error_code fault;
    std::filesystem::create_directories(folder, fault);
    if (fault) {
        return fail(Error::Kind::NotFound,
                    "The folder " + folder.string() + " cannot be made: choose another.");
    }
    RETURN_IF_ERROR(write(folder, "fresh", fresh));
    RETURN_IF_ERROR(write(folder, "late", late));
    return replaceFile(folder / "SCREENING.json", jsonText(screening));
}

Outcome<std::string> review(const Asked& asked)
{
    const Progress progress("Screening " + asked.fresh.string() + " and " + asked.late.string());
    ASSIGN_OR_RETURN(const auto scene, readScene(asked.scene));
    RETURN_IF_ERROR(needSideView(scene.view));
    PoseNetworks networks(resourceFolder());
    ClipOptions options;
    options.captureRate = scene.captureRate;
    // Both before the long work: a file that is no clip is told at once.
    ASSIGN_OR_RETURN(auto freshReader, ClipReader::open(asked.fresh, options));
    ASSIGN_OR_RETURN(auto lateReader, ClipReader::open(asked.late, options));
    RETURN_IF_ERROR(needInside(asked.box, asked.fresh, freshReader.facts()));
    RETURN_IF_ERROR(needInside(asked.box, asked.late, lateReader.facts()));
    ASSIGN_OR_RETURN(
        const auto fresh,
        aboutFile(asked.fresh, screened(freshReader, asked.fresh, scene, asked.box, networks)));
    ASSIGN_OR_RETURN(const auto late, aboutFile(asked.late, screened(lateReader, asked.late, scene,
                                                                     asked.box, networks)));
    const auto comparison = compare(fresh.readings, late.readings);
    const auto screening = toScreening(comparison, fresh, late);
    if (!asked.out.empty()) {
        RETURN_IF_ERROR(writeAll(asked.out, fresh, late, screening));
    }
    return asked.json ? jsonText(screening) : textOf(comparison);
}

} // namespace

void addReview(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "review", "Screens two clips without a hand: proposals, contacts, readings, unconfirmed");
    addPath(*word, "FRESH", asked->fresh, "The clip early in the run, filmed from the side");
    addPath(*word, "LATE", asked->late, "The clip late in the run, same camera");
    addInput(*word, "--scene", asked->scene, "Scale, plumb line, belt speed of both (SCENE.json)")
        ->required();
    word->add_option("--out", asked->out,
                     "A folder to write marks, contacts and readings of both clips and "
                     "SCREENING.json to")
        ->type_name("FOLDER");
    addBox(*word, asked->box,
           "A box round the runner on the first frame of both, pixels: needed where others "
           "stand beside her");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return review(*asked); }; });
}

} // namespace latemile::batch
