// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/session_folder.hpp"
#include "app/batch/text_table.hpp"
#include "app/batch/word.hpp"
#include "core/compare/refilms.hpp"
#include "core/compare/refilms_csv.hpp"
#include "core/json_file.hpp"
#include "core/json_or_null.hpp"
#include "core/measures/measure.hpp"
#include "core/rounding.hpp"
#include "core/store/athlete_sessions.hpp"
#include "core/store/coaches.hpp"
#include "core/store/library_measures.hpp"
#include "core/whole_file.hpp"

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path folder;
    std::filesystem::path out;
    bool json{};
};

/// A measure over the months, in both conditions.
struct Courses {
    std::vector<Course> fresh;
    std::vector<Course> fatigued;
    OwnMeasures own; ///< the coach's own among them
};

Outcome<std::vector<Readings>> daysOf(const std::vector<std::filesystem::path>& folders,
                                      std::string_view condition, const OwnMeasures& own)
{
    std::vector<Readings> days;
    for (const auto& folder : folders) {
        ASSIGN_OR_RETURN(const auto opened, openSessionFolder(folder));
        if (const auto* clip = findClip(opened.session, condition)) {
            ASSIGN_OR_RETURN(auto readings, readingsOf(folder, opened.session, *clip,
                                                       factsOf(opened.athlete), own));
            days.push_back(std::move(readings));
        }
    }
    return days;
}

Outcome<Courses> coursesIn(const std::filesystem::path& athlete)
{
    const auto folders = sessionFoldersOf(athlete);
    if (folders.empty()) {
        return fail(Error::Kind::NotFound, "The folder " + athlete.string() +
                                               " holds no filming day: name an athlete's folder, "
                                               "the one with athlete.json.");
    }
    ASSIGN_OR_RETURN(const auto own, ownMeasuresIn(libraryOf(folders.front())));
    ASSIGN_OR_RETURN(const auto fresh, daysOf(folders, "fresh", own));
    ASSIGN_OR_RETURN(const auto fatigued, daysOf(folders, "fatigued", own));
    return Courses{coursesOf(fresh), coursesOf(fatigued), own};
}

nlohmann::json toJson(const Course& course, const char* condition)
{
    auto days = nlohmann::json::array();
    for (const auto& point : course.points) {
        days.push_back({{"date", point.date},
                        {"n", point.n},
                        {"mean", orNull(point.mean)},
                        {"half_width", orNull(point.halfWidth)},
                        {"not_comparable", point.whyNot}});
    }
    nlohmann::json document{
        {"measure", course.measure},
        {"unit", course.unit},
        {"foot", course.foot ? std::string(nameOf(*course.foot)) : std::string("both")},
        {"condition", condition},
        {"days", days},
        {"change_since_last", nullptr},
        {"verdict_since_last", nullptr},
        {"held_since", course.heldSince},
        {"slope_a_month", nullptr}};
    if (course.sinceLast) {
        document["change_since_last"] = orNull(course.sinceLast->change);
        document["verdict_since_last"] = nameOf(course.sinceLast->verdict);
    }
    if (course.trend) {
        document["slope_a_month"] = course.trend->slope;
    }
    return document;
}

nlohmann::json toJson(const Courses& courses)
{
    auto rows = nlohmann::json::array();
    for (const auto& course : courses.fresh) {
        rows.push_back(toJson(course, "fresh"));
    }
    for (const auto& course : courses.fatigued) {
        rows.push_back(toJson(course, "fatigued"));
    }
    return {{"version", 1}, {"courses", rows}};
}

void addRow(TextTable& table, const Course& course, const char* condition, const OwnMeasures& own)
{
    const auto* measure = own.find(course.measure);
    const int most = measure ? measure->decimals : 9;
    const auto text = [&](const std::optional<double>& value, std::optional<double> error) {
        return value ? roundedTogether(*value, error.value_or(0.0), most).value : std::string();
    };
    const auto& first = course.points.front();
    const auto& newest = course.points.back();
    const auto& since = course.sinceLast;
    table.addRow({measure ? std::string(measure->name) : course.measure,
                  course.foot ? std::string(nameOf(*course.foot)) : "both", condition,
                  text(first.mean, first.halfWidth), text(newest.mean, newest.halfWidth),
                  since ? text(since->change, since->halfWidth) : std::string(),
                  measure ? std::string(symbolOf(measure->unit)) : course.unit,
                  since ? std::string(nameOf(since->verdict)) : std::string(), course.heldSince});
}

std::string textOf(const Courses& courses)
{
    TextTable table({"measure", "foot", "condition", ">first", ">newest", ">since last", "unit",
                     "verdict", "held since"});
    for (const auto& course : courses.fresh) {
        addRow(table, course, "fresh", courses.own);
    }
    for (const auto& course : courses.fatigued) {
        addRow(table, course, "fatigued", courses.own);
    }
    return table.text();
}

Outcome<std::string> tellProgress(const Asked& asked)
{
    const Progress progress("Reading " + asked.folder.string());
    ASSIGN_OR_RETURN(const auto courses, coursesIn(asked.folder));
    if (!asked.out.empty()) {
        RETURN_IF_ERROR(replaceFile(asked.out, endingOf(asked.out) == ".csv"
                                                   ? coursesCsv(courses.fresh, courses.fatigued)
                                                   : jsonText(toJson(courses))));
    }
    return asked.json ? jsonText(toJson(courses)) : textOf(courses);
}

} // namespace

void addProgress(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "progress", "Every measure of an athlete over the filming days, by the rule of verdicts");
    addPath(*word, "ATHLETE_FOLDER", asked->folder, "The folder that holds athlete.json");
    addOut(*word, asked->out, {".json", ".csv"}, "The courses to write, as JSON or CSV");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return tellProgress(*asked); }; });
}

} // namespace latemile::batch
