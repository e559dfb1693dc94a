// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/two_samples.json: Student (1908), Biometrika 6:1-25 (data set `sleep` of R)
// and made-up clips, computed with R 4.2.2 t.test and SciPy 1.10.1; t_quantiles.csv: R's qt.
#include "core/compare/comparison.hpp"
#include "core/compare/welch.hpp"
#include "core/csv.hpp"
#include "core/measures/measure.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

#include <numeric>

using namespace latemile;
using namespace latemile::testing;

namespace {

StepSpread spreadOf(const std::vector<double>& values)
{
    const double n = static_cast<double>(values.size());
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
    double squares = 0.0;
    for (const double v : values) {
        squares += (v - mean) * (v - mean);
    }
    return {static_cast<int>(values.size()), mean, std::sqrt(squares / (n - 1.0))};
}

/// A clip whose readings of one measure are summed up so, with a given common error of the
/// difference.
Readings readingsWith(const Measure& measure, const StepSpread& spread, double commonEvents)
{
    Readings readings;
    readings.clip.captureRate = 240.0;
    readings.clip.scene.view = View::LeftSide;
    Summary summary;
    summary.measure = measure.id;
    summary.foot = Foot::Left;
    summary.n = spread.n;
    summary.mean = spread.mean;
    summary.sd = spread.sd;
    summary.degreesOfFreedom = spread.n - 1;
    summary.common.events = commonEvents;
    readings.summary = {summary};
    return readings;
}

ComparisonRow compared(std::string_view id, const StepSpread& a, const StepSpread& b, double common)
{
    const auto& measure = *findMeasure(id);
    // The common error of the difference is made of one equal part of each clip.
    const double each = common / std::sqrt(2.0);
    for (const auto& row :
         compare(readingsWith(measure, a, each), readingsWith(measure, b, each)).rows) {
        if (row.measure == id) {
            return row;
        }
    }
    FAIL("no row");
    return {};
}

std::string_view measureFor(const std::string& unit)
{
    return unit == "ms" ? "contact_time" : unit == "deg" ? "knee_flex_contact" : "foot_ahead";
}

} // namespace

TEST_CASE("Welch's difference, error, degrees of freedom and interval are those of R's t.test",
          "[compare][outside]")
{
    const auto data = referenceJson("two_samples.json");
    for (const auto& given : data.at("welch_cases")) {
        INFO(given.at("id"));
        const auto a = spreadOf(given.at("a").get<std::vector<double>>());
        const auto b = spreadOf(given.at("b").get<std::vector<double>>());
        const auto welch = welchDifference(a, b);
        const auto& expect = given.at("expect");
        CHECK(welch.difference ==
              Approx(expect.at("difference_b_minus_a").get<double>()).epsilon(1e-7));
        CHECK(welch.standardError == Approx(expect.at("se").get<double>()).epsilon(1e-7));
        CHECK(welch.degreesOfFreedom == Approx(expect.at("df_welch").get<double>()).epsilon(1e-7));
        CHECK(welch.quantile == Approx(expect.at("t_quantile_0975").get<double>()).epsilon(1e-7));
        CHECK(welch.halfWidth() ==
              Approx(expect.at("half_width_welch").get<double>()).epsilon(1e-7));
    }
}

TEST_CASE("verdicts of whole clips are those worked out from R's intervals", "[compare][outside]")
{
    int verdicts = 0;
    const auto data = referenceJson("two_samples.json");
    for (const auto& given : data.at("welch_cases")) {
        const auto& expect = given.at("expect");
        if (!expect.contains("verdict")) {
            continue;
        }
        INFO(given.at("id"));
        const auto row = compared(measureFor(given.at("unit").get<std::string>()),
                                  spreadOf(given.at("a").get<std::vector<double>>()),
                                  spreadOf(given.at("b").get<std::vector<double>>()),
                                  given.at("common_error_one_sd").get<double>());
        CHECK(nameOf(row.verdict) == expect.at("verdict").get<std::string>());
        if (expect.contains("half_width_with_common_error")) {
            // R's file takes 1.96 for the normal quantile, as the verdict rule does.
            CHECK(*row.halfWidth ==
                  Approx(expect.at("half_width_with_common_error").get<double>()).epsilon(1e-6));
        }
        ++verdicts;
    }
    CHECK(verdicts == 3);
}

TEST_CASE("verdicts from summaries are those worked out from R's quantiles", "[compare][outside]")
{
    const std::map<std::string, std::string_view> measures{
        {"from_summaries_step_rate", "step_rate"}};
    const auto data = referenceJson("two_samples.json");
    for (const auto& given : data.at("summary_cases")) {
        INFO(given.at("id"));
        const auto side = [&](const char* key) {
            const auto& s = given.at(key);
            return StepSpread{s.at("n").get<int>(), s.at("mean").get<double>(),
                              s.at("sd").get<double>()};
        };
        // head_forward pools feet; the same numbers on a one-foot measure of the same floor keep n
        // - 1.
        const auto& expect = given.at("expect");
        const double common = given.at("common_error_one_sd").get<double>();
        const auto welch = welchDifference(side("fresh"), side("fatigued"));
        CHECK(welch.difference == Approx(expect.at("difference").get<double>()).epsilon(1e-7));
        CHECK(welch.degreesOfFreedom == Approx(expect.at("df_welch").get<double>()).epsilon(1e-7));
        CHECK(std::hypot(welch.halfWidth(), 1.96 * common) ==
              Approx(expect.at("half_width").get<double>()).epsilon(1e-7));
        const auto id =
            measures.contains(given.at("id").get<std::string>()) ? "step_rate" : "foot_ahead";
        const auto row = compared(id, side("fresh"), side("fatigued"), common);
        CHECK(nameOf(row.verdict) == expect.at("verdict").get<std::string>());
    }
}

TEST_CASE("Student quantiles are those of R's qt", "[compare][outside]")
{
    const auto table = CsvTable::read(referenceFile("t_quantiles.csv")).value();
    int checked = 0;
    for (const auto& row : table.rows()) {
        const auto df = row.number("df");
        if (!df) {
            continue; // the row for infinity
        }
        INFO("df " << *df);
        for (const auto& [column, p] :
             {std::pair{"t_p0.9", 0.9}, std::pair{"t_p0.95", 0.95}, std::pair{"t_p0.975", 0.975},
              std::pair{"t_p0.99", 0.99}, std::pair{"t_p0.995", 0.995}}) {
            CHECK(studentQuantile(p, *df) == Approx(row.number(column).value()).epsilon(1e-9));
            ++checked;
        }
    }
    CHECK(checked >= 150);
}
