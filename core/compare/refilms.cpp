// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/refilms.hpp"

#include "core/compare/welch.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/summaries.hpp"
#include "core/rounding.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr ClipNames earlierAndLater{"earlier", "later"};
constexpr double normalQuantile = 1.96;
constexpr double upperTail = 0.975;

const Summary* find(const Readings& day, std::string_view measure, std::optional<Foot> foot)
{
    const auto found = std::ranges::find_if(day.summary, [&](const Summary& summary) {
        return summary.measure == measure && summary.foot == foot && summary.n > 0;
    });
    return found == day.summary.end() ? nullptr : &*found;
}

std::optional<double> halfWidthOf(const Summary& summary, const Measure& measure)
{
    if (!summary.sd || summary.degreesOfFreedom <= 0) {
        return std::nullopt;
    }
    const double steps = studentQuantile(upperTail, summary.degreesOfFreedom) * *summary.sd *
                         widenedBy(measure, summary.n) / std::sqrt(static_cast<double>(summary.n));
    const double common =
        std::hypot(summary.common.events, summary.common.scale,
                   std::hypot(summary.common.plumb, measure.betweenDays / std::sqrt(2.0)));
    return std::hypot(steps, normalQuantile * common);
}

RefilmPoint pointOf(const Readings& day, const Readings& newest, const Measure& measure,
                    std::optional<Foot> foot)
{
    RefilmPoint point;
    point.date = day.clip.date;
    point.minute = day.clip.minute;
    if (const Summary* summary = find(day, measure.id, foot)) {
        point.n = summary->n;
        point.mean = summary->mean;
        point.halfWidth = halfWidthOf(*summary, measure);
    }
    point.whyNot = whyNotComparable(measure, day, newest, earlierAndLater).value_or("");
    return point;
}

using Rows = std::vector<Comparison>; // each day against a later one

std::optional<ComparisonRow> rowOf(const Comparison& comparison, const Course& course)
{
    const auto found = std::ranges::find_if(comparison.rows, [&](const ComparisonRow& row) {
        return row.measure == course.measure && row.foot == course.foot;
    });
    return found == comparison.rows.end() ? std::nullopt : std::optional(*found);
}

/// `toNewest[i]`: day i against the newest; `toNext[i]`: day i against day i + 1.
std::string heldSince(const Course& course, const Rows& toNewest, const Rows& toNext)
{
    std::size_t first = course.points.size() - 1;
    while (first > 0) {
        const auto row = rowOf(toNewest[first - 1], course);
        if (!row || row->verdict != Verdict::WithinError) {
            break;
        }
        --first;
    }
    if (first == 0 || first + 1 == course.points.size()) {
        return {};
    }
    const auto gained = rowOf(toNext[first - 1], course);
    return gained && gained->verdict == Verdict::ClearChange ? course.points[first].date
                                                             : std::string();
}

Verdict verdictOf(const TheilSen& found, double months, double floor)
{
    if (!found.interval) {
        return Verdict::TooFewSteps;
    }
    const bool beyondError = found.interval->low > 0.0 || found.interval->high < 0.0;
    const bool worthAWord = std::abs(found.slope) * months >= floor;
    return beyondError && worthAWord ? Verdict::ClearChange : Verdict::WithinError;
}

std::string sentenceOf(const MonthlyTrend& trend, const Measure& measure)
{
    // One decimal more than a reading: a month's share of a change is small.
    const auto number = [&](double value) { return fixedText(value, measure.decimals + 1); };
    const auto days = std::to_string(trend.days) + " days";
    const auto slope = std::string(measure.name) + ": " + number(trend.slope) + " " +
                       std::string(symbolOf(measure.unit)) + " a month (";
    if (!trend.interval) {
        return slope + days + "; an interval takes " + std::to_string(fewestForTrend) + ").";
    }
    return slope + "95 %: " + number(trend.interval->low) + " to " + number(trend.interval->high) +
           ", " + days + ").";
}

std::optional<MonthlyTrend> trendOf(const std::vector<RefilmPoint>& points, const Measure& measure)
{
    std::vector<double> months;
    std::vector<double> means;
    for (const RefilmPoint& point : points) {
        const auto day = dayNumber(point.date);
        if (day && point.mean && point.whyNot.empty()) {
            months.push_back(*day / daysAMonth);
            means.push_back(*point.mean);
        }
    }
    const auto found = theilSen(months, means);
    if (!found) {
        return std::nullopt;
    }
    MonthlyTrend trend{.slope = found->slope,
                       .interval = found->interval,
                       .days = found->points,
                       .verdict = verdictOf(*found, months.back() - months.front(), measure.floor),
                       .sentence = {}};
    trend.sentence = sentenceOf(trend, measure);
    return trend;
}

Course courseOf(const std::vector<Readings>& days, const Measure& measure, std::optional<Foot> foot,
                const Rows& toNewest, const Rows& toNext)
{
    Course course;
    course.measure = measure.id;
    course.unit = symbolOf(measure.unit);
    course.foot = foot;
    for (const Readings& day : days) {
        course.points.push_back(pointOf(day, days.back(), measure, foot));
    }
    if (days.size() > 1) {
        course.sinceLast = rowOf(toNewest.back(), course);
        course.sinceFirst = rowOf(toNewest.front(), course);
        course.heldSince = heldSince(course, toNewest, toNext);
        course.trend = trendOf(course.points, measure);
    }
    return course;
}

} // namespace

std::vector<Course> coursesOf(const std::vector<Readings>& days)
{
    if (days.empty()) {
        return {};
    }
    Rows toNewest;
    Rows toNext;
    for (std::size_t day = 0; day + 1 < days.size(); ++day) {
        toNewest.push_back(compare(days[day], days.back(), earlierAndLater));
        toNext.push_back(compare(days[day], days[day + 1], earlierAndLater));
    }
    std::vector<Course> courses;
    const auto measures = days.back().own.all();
    for (const Measure* known : measures) {
        const Measure& measure = *known;
        for (const std::optional<Foot> foot :
             {std::optional<Foot>(), std::optional(Foot::Left), std::optional(Foot::Right)}) {
            if (!measure.isClass && find(days.back(), measure.id, foot) != nullptr) {
                courses.push_back(courseOf(days, measure, foot, toNewest, toNext));
                break;
            }
        }
    }
    return courses;
}

} // namespace latemile
