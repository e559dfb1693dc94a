// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/refilms.hpp"
#include "core/compare/refilms_csv.hpp"
#include "core/csv.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

Readings day(std::string date, double mean, double speed = 2.7)
{
    Summary summary;
    summary.measure = "foot_ahead";
    summary.foot = Foot::Left;
    summary.n = 8;
    summary.mean = mean;
    summary.sd = 0.8;
    summary.degreesOfFreedom = 7;
    Readings readings;
    readings.clip.date = std::move(date);
    readings.clip.captureRate = 240.0;
    readings.clip.scene.beltSpeed = speed;
    readings.summary = {summary};
    return readings;
}

Course courseOf(const std::vector<Readings>& days)
{
    const auto courses = coursesOf(days);
    REQUIRE(courses.size() == 1);
    return courses.front();
}

} // namespace

TEST_CASE("a course tells what is clear since the last day and since when a gain has held",
          "[compare]")
{
    SECTION("a gain that came a month ago and stayed is held, not gained again")
    {
        const auto course =
            courseOf({day("2026-08-29", 25.0), day("2026-09-26", 17.0), day("2026-10-24", 17.3)});
        REQUIRE(course.sinceLast);
        CHECK(course.sinceLast->verdict == Verdict::WithinError);
        CHECK(course.sinceFirst->verdict == Verdict::ClearChange);
        CHECK(course.heldSince == "2026-09-26");
    }
    SECTION("what never changed was never gained")
    {
        const auto course =
            courseOf({day("2026-08-29", 17.1), day("2026-09-26", 17.0), day("2026-10-24", 17.3)});
        CHECK(course.heldSince.empty());
    }
    SECTION("a change on the newest day has not held yet")
    {
        const auto course = courseOf({day("2026-08-29", 25.0), day("2026-09-26", 17.0)});
        CHECK(course.sinceLast->verdict == Verdict::ClearChange);
        // Half-width: t(14) 2.145 x 0.4 and 1.96 x 1.4 cm in quadrature = 2.88 cm; three leading
        // digits below 355 keep two (Particle Data Group), so the change is told to a tenth.
        CHECK(course.sinceLast->sentence == "The foot lands 8.0 cm less far ahead of the hip.");
        CHECK(course.heldSince.empty());
    }
}

TEST_CASE("a day at another speed is named as such and stands for nothing", "[compare]")
{
    const auto course =
        courseOf({day("2026-08-29", 25.0, 3.2), day("2026-09-26", 17.0), day("2026-10-24", 17.3)});
    CHECK(course.points[0].whyNot == "The speeds differ: 3.20 m/s earlier, 2.70 m/s later.");
    CHECK(course.points[1].whyNot.empty());
    CHECK(course.sinceFirst->verdict == Verdict::NotComparable);
    CHECK(course.heldSince.empty());
}

TEST_CASE("a day's bar holds the steps and one day's share of the placement error", "[compare]")
{
    // Student's t of 7 degrees of freedom, two-sided 95 %: 2.365 (any printed table). The steps
    // give 2.365 x 0.8 / sqrt(8) = 0.669 cm; placement 1.96 x 1.4 / sqrt(2) = 1.940 cm.
    const auto course = courseOf({day("2026-08-29", 25.0)});
    REQUIRE(course.points[0].halfWidth);
    CHECK(*course.points[0].halfWidth == Approx(2.052).margin(0.003));
    CHECK_FALSE(course.sinceLast);
}

TEST_CASE("the table of a course has a row a day and tells the change in the newest one",
          "[compare]")
{
    const auto csv = coursesCsv(coursesOf({day("2026-08-29", 25.0), day("2026-09-26", 17.0)}), {});
    const auto table = CsvTable::parse(csv, "refilms.csv");
    REQUIRE(table);
    REQUIRE(table->rows().size() == 2);
    CHECK(table->rows()[0].cell("verdict_since_last").empty());
    CHECK(table->rows()[1].cell("verdict_since_last") == "clear change");
    CHECK(*table->rows()[1].number("change_since_last") == Approx(-8.0));
}

TEST_CASE("a slope a month is clear by the rule of every verdict", "[compare]")
{
    const auto courseAt = [](const std::vector<double>& means) {
        const std::vector<std::string> dates{"2026-05-01", "2026-06-01", "2026-07-01",
                                             "2026-08-01", "2026-09-01", "2026-10-01"};
        std::vector<Readings> days;
        for (std::size_t i = 0; i < means.size(); ++i) {
            days.push_back(day(dates[i], means[i]));
        }
        return courseOf(days);
    };
    SECTION("a fall of a centimetre a month")
    {
        // 153 days are 5.03 months, the fall is 5 cm in even steps: close to -1 cm a month.
        const auto course = courseAt({25.0, 24.0, 23.0, 22.0, 21.0, 20.0});
        REQUIRE(course.trend);
        CHECK(course.trend->slope == Approx(-0.99).margin(0.02));
        CHECK(course.trend->verdict == Verdict::ClearChange);
        CHECK_THAT(course.trend->sentence, containing("cm a month (95 %: "));
    }
    SECTION("steady, but smaller over the whole course than the floor of 1.5 cm")
    {
        const auto course = courseAt({25.0, 24.8, 24.6, 24.4, 24.2, 24.0});
        CHECK(course.trend->interval->high < 0.0);
        CHECK(course.trend->verdict == Verdict::WithinError);
    }
    SECTION("up and down")
    {
        CHECK(courseAt({25.0, 22.0, 25.5, 21.0, 24.0, 25.0}).trend->verdict ==
              Verdict::WithinError);
    }
    SECTION("four days give a slope and no interval")
    {
        const auto course = courseAt({25.0, 24.0, 23.0, 22.0});
        CHECK_FALSE(course.trend->interval);
        CHECK(course.trend->verdict == Verdict::TooFewSteps);
        CHECK_THAT(course.trend->sentence, containing("4 days; an interval takes 5"));
    }
}
