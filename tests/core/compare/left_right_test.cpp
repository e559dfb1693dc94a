// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/left_right.hpp"

#include "core/measures/measure.hpp"
#include "tests/catch.hpp"

using namespace latemile;

namespace {

Readings withFeet(const char* measure, const Summary& left, const Summary& right)
{
    Readings readings;
    for (const auto& [summary, foot] :
         {std::pair(left, Foot::Left), std::pair(right, Foot::Right)}) {
        readings.summary.push_back(summary);
        readings.summary.back().measure = measure;
        readings.summary.back().foot = foot;
    }
    return readings;
}

Summary of(int n, double mean, double sd, double judgement = 0.0)
{
    Summary summary;
    summary.n = n;
    summary.mean = mean;
    summary.sd = sd;
    summary.common.events = judgement;
    return summary;
}

} // namespace

TEST_CASE("left against right gives Welch's interval", "[compare][outside]")
{
    // Student (1908), The probable error of a mean, Biometrika 6: extra hours of sleep with two
    // drugs (data set `sleep` of R). R 4.2.2, t.test: 95 percent confidence interval -3.3654832 to
    // 0.2054832, a half-width of 1.78548.
    const auto told =
        leftAgainstRight(withFeet("contact_time", of(10, 0.75, 1.789010), of(10, 2.33, 2.002249)),
                         *findMeasure("contact_time"));
    REQUIRE(told);
    CHECK(told->difference == Approx(-1.58));
    CHECK(told->halfWidth == Approx(1.78548).epsilon(1e-4));
    CHECK(told->verdict == Verdict::WithinError);
}

TEST_CASE("what is beyond the interval and the floor is clear, from six steps a foot on",
          "[compare]")
{
    const Measure& measure = *findMeasure("contact_time"); // floor 5 ms
    const auto verdict = [&](int n, double left) {
        return leftAgainstRight(withFeet("contact_time", of(n, left, 1), of(n, 240, 1)), measure)
            ->verdict;
    };
    CHECK(verdict(8, 250) == Verdict::ClearChange);
    CHECK(verdict(8, 243) == Verdict::WithinError); // beyond the interval, below the floor
    CHECK(verdict(5, 250) == Verdict::TooFewSteps);
}

TEST_CASE("the judgement of each foot's events widens the interval", "[compare]")
{
    const Measure& measure = *findMeasure("contact_time");
    const auto told =
        leftAgainstRight(withFeet("contact_time", of(8, 250, 0, 3), of(8, 240, 0, 4)), measure);
    REQUIRE(told);
    CHECK(told->halfWidth == Approx(1.959964 * 5.0)); // 3 and 4 in quadrature
}

TEST_CASE("upper body and the far leg's positions are never told left against right", "[compare]")
{
    for (const Measure& measure : measureTable()) {
        const auto told = leftAgainstRight(
            withFeet(std::string(measure.id).c_str(), of(9, 1, 1), of(9, 2, 1)), measure);
        INFO(measure.id);
        CHECK(told.has_value() == (measure.feet == Feet::Each));
    }
    CHECK_FALSE(leftAgainstRight(withFeet("contact_time", of(1, 1, 0), of(9, 2, 1)),
                                 *findMeasure("contact_time")));
}
