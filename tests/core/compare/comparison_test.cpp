// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/comparability.hpp"
#include "core/compare/comparison.hpp"
#include "core/measures/measure.hpp"

#include "tests/catch.hpp"

#include <algorithm>
#include <cmath>

using namespace latemile;

namespace {

Summary summary(std::string measure, int n, double mean, double sd,
                std::optional<Foot> foot = Foot::Left)
{
    Summary s;
    s.measure = std::move(measure);
    s.foot = foot;
    s.n = n;
    s.mean = mean;
    s.sd = sd;
    s.degreesOfFreedom = n - 1;
    return s;
}

Readings clipWith(std::vector<Summary> summaries)
{
    Readings readings;
    readings.clip.captureRate = 240.0;
    readings.clip.date = "2026-08-29";
    readings.clip.shoes = "road";
    readings.clip.inclinePercent = 1.0;
    readings.clip.scene.view = View::LeftSide;
    readings.clip.scene.beltSpeed = 3.0;
    readings.summary = std::move(summaries);
    return readings;
}

ComparisonRow rowOf(const Readings& fresh, const Readings& fatigued, std::string_view measure)
{
    const auto rows = compare(fresh, fatigued).rows;
    const auto found =
        std::find_if(rows.begin(), rows.end(), [&](const auto& r) { return r.measure == measure; });
    REQUIRE(found != rows.end());
    return *found;
}

} // namespace

TEST_CASE("a clear change is told in plain words, rounded to what its error deserves", "[compare]")
{
    const auto row = rowOf(clipWith({summary("foot_ahead", 8, 22.0, 1.0)}),
                           clipWith({summary("foot_ahead", 8, 25.1234, 1.1)}), "foot_ahead");
    CHECK(row.verdict == Verdict::ClearChange);
    CHECK(row.sentence == "The foot lands 3.1 cm further ahead of the hip.");
    const auto back =
        rowOf(clipWith({summary("knee_flex_contact", 8, 20.0, 1.0)}),
              clipWith({summary("knee_flex_contact", 8, 14.0, 1.1)}), "knee_flex_contact");
    CHECK(back.sentence == "The foot lands on a knee 6.0\u00b0 straighter.");
}

TEST_CASE("a change beyond its error but below the floor is within error, and says why",
          "[compare]")
{
    const auto row = rowOf(clipWith({summary("foot_ahead", 30, 22.0, 0.5)}),
                           clipWith({summary("foot_ahead", 30, 23.0, 0.5)}), "foot_ahead");
    CHECK(row.verdict == Verdict::WithinError);
    CHECK_THAT(row.reason, containing("1.5 cm"));
}

TEST_CASE("five steps are too few for a verdict, six are not", "[compare]")
{
    const auto fresh = clipWith({summary("foot_ahead", 6, 22.0, 1.0)});
    CHECK(rowOf(fresh, clipWith({summary("foot_ahead", 5, 30.0, 1.0)}), "foot_ahead").verdict ==
          Verdict::TooFewSteps);
    CHECK(rowOf(fresh, clipWith({summary("foot_ahead", 6, 30.0, 1.0)}), "foot_ahead").verdict ==
          Verdict::ClearChange);
}

TEST_CASE("a measure one clip does not have tells the reason its readings give", "[compare]")
{
    auto fatigued = clipWith({});
    Reading reading;
    reading.measure = "head_forward";
    reading.reason = "ear not marked at mid-stance, step 1";
    fatigued.readings = {reading};
    const auto row = rowOf(clipWith({summary("head_forward", 8, 5.0, 1.0, std::nullopt)}), fatigued,
                           "head_forward");
    CHECK(row.verdict == Verdict::TooFewSteps);
    CHECK_THAT(row.reason, containing("ear not marked"));
}

TEST_CASE("speeds 3 percent apart forbid timings and allow angles; 6 percent forbid both",
          "[compare]")
{
    const std::vector summaries{summary("contact_time", 8, 250, 4),
                                summary("trunk_lean", 8, 6.0, 0.5, std::nullopt)};
    auto faster = clipWith(summaries);
    faster.clip.scene.beltSpeed = 3.09;
    CHECK(rowOf(clipWith(summaries), faster, "contact_time").verdict == Verdict::NotComparable);
    CHECK(rowOf(clipWith(summaries), faster, "trunk_lean").verdict == Verdict::WithinError);
    faster.clip.scene.beltSpeed = 3.18;
    CHECK(rowOf(clipWith(summaries), faster, "trunk_lean").verdict == Verdict::NotComparable);
}

TEST_CASE("two percent of speed exactly is still comparable", "[compare]")
{
    auto faster = clipWith({summary("contact_time", 8, 250, 4)});
    faster.clip.scene.beltSpeed = 3.06;
    CHECK(rowOf(clipWith({summary("contact_time", 8, 250, 4)}), faster, "contact_time").verdict ==
          Verdict::WithinError);
}

TEST_CASE("incline, view, capture rate, shoes and a bad check each forbid a comparison and say so",
          "[compare]")
{
    const auto fresh = clipWith({summary("trunk_lean", 8, 6.0, 0.5, std::nullopt)});
    auto other = fresh;
    std::string part;
    SECTION("incline")
    {
        other.clip.inclinePercent = 2.0;
        part = "inclines";
    }
    SECTION("view")
    {
        other.clip.scene.view = View::RightSide;
        part = "different sides";
    }
    SECTION("capture rate")
    {
        other.clip.captureRate = 120.0;
        part = "capture rates";
    }
    SECTION("shoes")
    {
        other.clip.shoes = "trail";
        part = "shoes";
    }
    SECTION("a bad check")
    {
        other.checks = {
            {"belt", 0.5, 0.01, Check::State::Bad, "The foot moves at 0.50 of the belt speed."}};
        part = "0.50 of the belt speed";
    }
    const auto row = rowOf(fresh, other, "trunk_lean");
    CHECK(row.verdict == Verdict::NotComparable);
    CHECK_THAT(row.reason, containing(part));
}

TEST_CASE("scale and plumb errors count where the scenes differ and drop out where they are one",
          "[compare]")
{
    auto fresh = clipWith({summary("foot_ahead", 8, 22.0, 1.0)});
    auto fatigued = clipWith({summary("foot_ahead", 8, 25.0, 1.0)});
    for (auto* clip : {&fresh, &fatigued}) {
        clip->summary[0].common = {.events = 0.3, .scale = 0.5, .plumb = 0.4};
    }
    // t(14) = 2.1448 (any table), SE = 1 / sqrt(4) = 0.5; common errors in quadrature, by hand.
    const double welch = 2.14479 * 0.5;
    CHECK(*rowOf(fresh, fatigued, "foot_ahead").halfWidth ==
          Approx(std::hypot(welch, 1.96 * std::sqrt(2.0) * 0.3)).epsilon(1e-4));
    fatigued.clip.scene.plumb = PlumbLine{{1, 0}, {0, 500}};
    const double each = std::sqrt(0.3 * 0.3 + 0.5 * 0.5 + 0.4 * 0.4);
    CHECK(*rowOf(fresh, fatigued, "foot_ahead").halfWidth ==
          Approx(std::hypot(welch, 1.96 * std::sqrt(2.0) * each)).epsilon(1e-4));
    fatigued.clip.date = "2026-09-26";
    const double placement = findMeasure("foot_ahead")->betweenDays;
    CHECK(*rowOf(fresh, fatigued, "foot_ahead").halfWidth ==
          Approx(std::hypot(welch, 1.96 * std::hypot(std::sqrt(2.0) * each, placement)))
              .epsilon(1e-4));
}

TEST_CASE("where only the speeds differ a published slope gives an estimate, and says so",
          "[compare][outside]")
{
    auto fresh = clipWith({summary("step_rate", 8, 168.0, 1.0), summary("contact_time", 8, 250, 5),
                           summary("foot_ahead", 8, 22.0, 1.0)});
    auto fatigued =
        clipWith({summary("step_rate", 8, 170.0, 1.0), summary("contact_time", 8, 240, 5),
                  summary("foot_ahead", 8, 24.0, 1.0)});
    fatigued.clip.scene.beltSpeed = 3.3;
    SECTION("the step rate by 5.6 steps/min a m/s (Burns 2019, J Appl Physiol)")
    {
        // By hand: 168 + 5.6 x 0.3 = 169.68; 170 is 0.32 more.
        const auto row = rowOf(fresh, fatigued, "step_rate");
        CHECK(row.verdict == Verdict::NotComparable);
        REQUIRE(row.speedEstimate);
        CHECK(row.speedEstimate->predicted == Approx(169.68));
        CHECK(row.speedEstimate->difference == Approx(0.32));
        CHECK_THAT(row.speedEstimate->sentence, containing("An estimate, not a comparison"));
        CHECK_THAT(row.speedEstimate->sentence, containing("Burns 2019"));
    }
    SECTION("contact time by -0.7 % a percent of speed (from memory)")
    {
        // By hand: the speed is 10 % higher, so 250 less 7 % = 232.5.
        const auto row = rowOf(fresh, fatigued, "contact_time");
        REQUIRE(row.speedEstimate);
        CHECK(row.speedEstimate->predicted == Approx(232.5));
        CHECK_THAT(row.speedEstimate->sentence, containing("recalled from the literature"));
    }
    SECTION("nothing for a measure without a published slope")
    {
        CHECK(rowOf(fresh, fatigued, "foot_ahead").verdict == Verdict::NotComparable);
        CHECK_FALSE(rowOf(fresh, fatigued, "foot_ahead").speedEstimate);
    }
    SECTION("nothing where the shoes differ too")
    {
        fatigued.clip.shoes = "trail";
        CHECK_FALSE(rowOf(fresh, fatigued, "step_rate").speedEstimate);
    }
    SECTION("nothing where the speeds are too far apart for a straight line")
    {
        fatigued.clip.scene.beltSpeed = 4.0;
        CHECK_FALSE(rowOf(fresh, fatigued, "step_rate").speedEstimate);
    }
    SECTION("nothing at one speed")
    {
        fatigued.clip.scene.beltSpeed = 3.0;
        CHECK_FALSE(rowOf(fresh, fatigued, "step_rate").speedEstimate);
    }
}

TEST_CASE("the step rate is told against what tiring does, never against a target", "[compare]")
{
    const auto row = rowOf(clipWith({summary("step_rate", 8, 170.0, 1.0)}),
                           clipWith({summary("step_rate", 8, 163.2, 1.0)}), "step_rate");
    // By hand: 6.8 of 170 are 4.0 %.
    CHECK_THAT(row.usual, containing("fell by 4.0 %"));
    CHECK_THAT(row.usual, containing("common practice, no source"));
    CHECK_THAT(row.usual, !containing("180"));
    // Of one foot it is told where there is none of both.
    auto left = summary("step_rate", 8, 170.0, 1.0);
    left.foot = Foot::Left;
    const auto both = summary("step_rate", 8, 170.0, 1.0);
    const auto told = [](const Comparison& comparison) {
        return std::ranges::count_if(comparison.rows, [](const ComparisonRow& one) {
            return one.measure == "step_rate" && !one.usual.empty();
        });
    };
    CHECK(told(compare(clipWith({both, left}), clipWith({both, left}))) == 1);
    CHECK(told(compare(clipWith({left}), clipWith({left}))) == 1);
    CHECK(rowOf(clipWith({summary("foot_ahead", 8, 22.0, 1.0)}),
                clipWith({summary("foot_ahead", 8, 25.0, 1.0)}), "foot_ahead")
              .usual.empty());
}
