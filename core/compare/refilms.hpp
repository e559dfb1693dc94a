// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"
#include "core/compare/trend.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// One filming day of a course: a measure's mean over the confirmed steps of its clip.
struct RefilmPoint {
    std::string date;             ///< ISO 8601
    std::optional<double> minute; ///< into the run
    int n{};                      ///< confirmed steps; 0: no mean
    std::optional<double> mean;
    /// 95 % half-width of the mean for reading it against other days: steps, events, scale, plumb
    /// and one day's share of the placement error between days. None with too few steps for it.
    std::optional<double> halfWidth;
    /// Why it must not be set beside the newest day (speed, incline, view, shoes ...); else empty.
    std::string whyNot;
};

/// How a measure moves over the months, from the days that may be set beside the newest one.
struct MonthlyTrend {
    double slope{};                       ///< units of the measure a month (Theil-Sen)
    std::optional<WithInterval> interval; ///< 95 %; none: too few days for one
    int days{};                           ///< that entered
    /// By the rule of every verdict: clear where the interval leaves zero out and the change over
    /// the whole course is no smaller than the measure's floor. TooFewSteps reads "too few days".
    Verdict verdict{};
    std::string sentence; ///< "Foot ahead of hip: -0.42 cm a month (95 %: -0.80 to -0.11, 6 days)."
};

/// A measure in one condition over all filming days.
struct Course {
    std::string measure;
    std::string unit{};
    std::optional<Foot> foot; ///< none: both
    std::vector<RefilmPoint> points;
    std::optional<ComparisonRow> sinceLast;  ///< newest day against the one before; none: one day
    std::optional<ComparisonRow> sinceFirst; ///< newest day against the first; none: one day
    /// The first day from which on every day is within error of the newest, after a clear change
    /// against the day before it; empty: nothing was gained that could be held.
    std::string heldSince;
    /// None: fewer than two comparable days with a mean and a date.
    std::optional<MonthlyTrend> trend{};
};

/// The courses of all measures that the newest day has a mean of, in the order of the table of
/// measures: of both feet together where there is such a mean, else of the foot that has one.
/// `days` in order of date, all of one condition; none: no courses.
[[nodiscard]] std::vector<Course> coursesOf(const std::vector<Readings>& days);

} // namespace latemile
