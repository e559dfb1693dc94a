// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/refilms_csv.hpp"

#include "core/csv.hpp"

namespace latemile {

namespace {

void addTrend(CsvText& csv, const std::optional<MonthlyTrend>& trend)
{
    if (!trend) {
        csv.empty().empty().empty().empty();
        return;
    }
    const auto& interval = trend->interval;
    csv.number(trend->slope);
    csv.number(interval ? std::optional(interval->low) : std::nullopt);
    csv.number(interval ? std::optional(interval->high) : std::nullopt);
    csv.text(trend->verdict == Verdict::TooFewSteps ? "too few days" : nameOf(trend->verdict));
}

void addNewest(CsvText& csv, const Course& course, bool newest)
{
    if (!newest || !course.sinceLast) {
        csv.empty().empty().empty().empty();
        addTrend(csv, std::nullopt);
        return;
    }
    csv.number(course.sinceLast->change).number(course.sinceLast->halfWidth);
    csv.text(nameOf(course.sinceLast->verdict)).text(course.heldSince);
    addTrend(csv, course.trend);
}

void addCourse(CsvText& csv, const Course& course, std::string_view condition)
{
    for (const RefilmPoint& point : course.points) {
        csv.text(course.measure).text(course.unit);
        csv.text(course.foot ? nameOf(*course.foot) : "both").text(condition).text(point.date);
        csv.number(point.minute).integer(point.n).number(point.mean).number(point.halfWidth);
        csv.text(point.whyNot);
        addNewest(csv, course, &point == &course.points.back());
        csv.endRow();
    }
}

} // namespace

std::string coursesCsv(const std::vector<Course>& fresh, const std::vector<Course>& fatigued)
{
    CsvText csv({"measure", "unit", "foot", "condition", "date", "minute", "n", "mean",
                 "half_width", "not_comparable", "change_since_last", "change_half_width",
                 "verdict_since_last", "held_since", "slope_a_month", "slope_low", "slope_high",
                 "verdict_of_slope"});
    for (const Course& course : fresh) {
        addCourse(csv, course, "fresh");
    }
    for (const Course& course : fatigued) {
        addCourse(csv, course, "fatigued");
    }
    return csv.whole();
}

} // namespace latemile
