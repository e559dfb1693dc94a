// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/measures/worked_example.hpp"

#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::testing;

namespace {

double valueOf(const Readings& readings, std::string_view measure, int step = 1)
{
    const auto* reading = findReading(readings, measure, step);
    REQUIRE(reading);
    INFO(measure << ": " << reading->reason);
    REQUIRE(reading->value);
    return *reading->value;
}

} // namespace

// Expected values: arithmetic by hand, to three decimals, recomputed by NumPy 1.24.2 where
// angles.json has them.
TEST_CASE("the worked example gives the body's angles and distances to the last decimal",
          "[measures][outside]")
{
    const auto readings = *readingsOf(exampleClip());
    CHECK(valueOf(readings, "foot_ahead") == Approx(26.000).margin(5e-4));
    CHECK(valueOf(readings, "shank_angle") == Approx(9.648).margin(5e-4));
    CHECK(valueOf(readings, "knee_flex_contact") == Approx(17.158).margin(5e-4));
    CHECK(valueOf(readings, "head_forward") == Approx(6.400).margin(5e-4));
    CHECK(valueOf(readings, "neck_length") == Approx(17.600).margin(5e-4));
    CHECK(valueOf(readings, "trunk_lean") == Approx(7.806).margin(5e-4));
    CHECK(valueOf(readings, "hips_behind") == Approx(-11.200).margin(5e-4));
    CHECK(valueOf(readings, "hip_drop") == Approx(3.200).margin(5e-4));
    // atan2(16, 44) px of the mid-stance column
    CHECK(valueOf(readings, "head_angle") ==
          Approx(std::atan2(16.0, 44.0) * 180.0 / M_PI).margin(1e-9));
}

TEST_CASE("the worked example gives foot, ankle and hip at contact, mid-stance and toe-off",
          "[measures][outside]")
{
    const auto readings = *readingsOf(exampleClip());
    CHECK(valueOf(readings, "foot_inclination") == Approx(14.036).margin(5e-4));
    CHECK(valueOf(readings, "dorsiflexion") == Approx(4.388).margin(5e-4));
    CHECK(valueOf(readings, "trunk_lean_at_contact") == Approx(6.843).margin(5e-4));
    CHECK(valueOf(readings, "dorsiflexion_mid_stance") == Approx(33.378).margin(5e-4));
    CHECK(valueOf(readings, "hip_height") == Approx(96.364).margin(5e-4));
    CHECK(valueOf(readings, "trailing_limb") == Approx(23.070).margin(5e-4));
    CHECK(valueOf(readings, "hip_extension") == Approx(13.991).margin(5e-4));
    CHECK(valueOf(readings, "strike") == 1.0); // 14 degrees is above 8: heel first
    CHECK(findReading(readings, "strike")->reason == "heel strike");
}

TEST_CASE("a left step of 356 ms before a right one of 358 ms is 0.56 percent shorter",
          "[measures][outside]")
{
    // 100 x (356 - 358) / 357 = -0.560, by hand.
    auto clip = exampleClip();
    clip.conditions.scene.view = View::LeftSide;
    clip.conditions.scene.travel = Travel::Left;
    for (auto& stance : clip.marking.stances) {
        stance.foot = otherFoot(stance.foot);
    }
    clip.marking.marks.clear();
    const auto readings = *readingsOf(clip);
    CHECK(valueOf(readings, "step_asymmetry") == Approx(-0.560).margin(5e-4));
    CHECK(valueOf(readings, "contact_asymmetry") ==
          Approx(100.0 * (252.0 - 254.0) / 253.0).margin(1e-6));
}

TEST_CASE("two clicks of 2 px give the standard errors of first-order propagation",
          "[measures][outside]")
{
    const auto readings = *readingsOf(exampleClip());
    const auto fromMarks = [&](std::string_view measure) {
        return std::sqrt(findReading(readings, measure)->shares.marks);
    };
    // By hand: k sqrt(s1^2 + s2^2), sqrt(s1^2 + s2^2) / r, s sqrt(2/r1^2 + 2/r2^2 - 2 cos / (r1
    // r2)).
    CHECK(fromMarks("foot_ahead") == Approx(1.131).margin(1e-3));
    CHECK(fromMarks("shank_angle") == Approx(1.598).margin(1e-3));
    CHECK(fromMarks("knee_flex_contact") == Approx(2.682).margin(1e-3));
    CHECK(fromMarks("trunk_lean") ==
          Approx(std::sqrt(8.0) / std::hypot(17.0, 124.0) * 180.0 / M_PI).margin(1e-3));
}

TEST_CASE("the worked example gives its timings", "[measures][outside]")
{
    // The times of the example start at 0; here the run starts at 0.1 s, feet exchanged, nothing
    // else.
    const auto readings = *readingsOf(exampleClip());
    CHECK(valueOf(readings, "contact_time", 1) == Approx(252.0).margin(1e-6));
    CHECK(valueOf(readings, "contact_time", 2) == Approx(254.0).margin(1e-6));
    CHECK(valueOf(readings, "flight_time", 1) == Approx(104.0).margin(1e-6));
    CHECK(valueOf(readings, "flight_time", 2) == Approx(104.0).margin(1e-6));
    CHECK(valueOf(readings, "duty_factor", 1) == Approx(35.294).margin(5e-4));
    CHECK_FALSE(findReading(readings, "duty_factor", 2)->value);
    CHECK(findReading(readings, "duty_factor", 2)->reason == "the stride is not complete, step 2");
    const auto ofClip = [&](std::string_view measure) {
        for (const auto& r : readings.readings) {
            if (r.measure == measure && !r.step) {
                return r.value.value_or(-1.0);
            }
        }
        return -1.0;
    };
    CHECK(ofClip("step_rate") == Approx(168.067).margin(5e-4));
    CHECK(ofClip("step_length") == Approx(1.071).margin(5e-4)); // 3.0 m/s x 357 ms
}

TEST_CASE("a landmark that is not marked gives no value and the reason", "[measures]")
{
    auto clip = exampleClip();
    clip.marking.marks.erase({{113}, BodySide::Near, Landmark::Ear});
    const auto readings = *readingsOf(clip);
    const auto* reading = findReading(readings, "head_forward");
    REQUIRE(reading);
    CHECK_FALSE(reading->value);
    CHECK(reading->reason == "ear not marked at mid-stance, step 1");
}

TEST_CASE("without any scale lengths are refused and angles are not", "[measures]")
{
    auto clip = exampleClip();
    clip.conditions.scene.scale.reset();
    clip.athlete.legLengthCm.reset();
    const auto readings = *readingsOf(clip);
    CHECK_FALSE(findReading(readings, "foot_ahead")->value);
    CHECK_THAT(findReading(readings, "foot_ahead")->reason, containing("no scale"));
    CHECK(valueOf(readings, "shank_angle") == Approx(9.648).margin(5e-4));
}

TEST_CASE("a scale from the leg length is labelled as the weaker one", "[measures]")
{
    auto clip = exampleClip();
    clip.conditions.scene.scale.reset();
    const auto readings = *readingsOf(clip);
    CHECK(readings.clip.scaleFrom == ScaleFrom::LegLength);
    const auto* reading = findReading(readings, "foot_ahead");
    REQUIRE(reading->value);
    CHECK_THAT(reading->reason, containing("weaker"));
    // 3 % of the value at least, for proportions that differ between people.
    CHECK(*reading->se >= 0.03 * std::abs(*reading->value));
}

TEST_CASE("a clip of 30 frames a second gives no timings and says so", "[measures]")
{
    auto clip = exampleClip();
    clip.index = exampleIndex(1.0 / 30.0);
    clip.marking.marks.clear();
    const auto readings = *readingsOf(clip);
    CHECK_FALSE(findReading(readings, "contact_time")->value);
    CHECK_THAT(findReading(readings, "contact_time")->reason, containing("30 frames/s"));
}

TEST_CASE("frames missing from a step leave it without readings", "[measures]")
{
    auto clip = exampleClip();
    auto times = clip.index.times();
    times.erase(times.begin() + 200, times.begin() + 205); // 0.400 to 0.408 s, in step 1
    clip.index = FrameIndex(times);
    const auto readings = *readingsOf(clip);
    CHECK_FALSE(findReading(readings, "contact_time", 1)->value);
    CHECK_THAT(findReading(readings, "contact_time", 1)->reason, containing("frames are missing"));
    CHECK(findReading(readings, "contact_time", 2)->value);
}

TEST_CASE("a followed or proposed mark is no confirmed reading and enters no summary", "[measures]")
{
    auto clip = exampleClip();
    clip.marking.marks[{{50}, BodySide::Near, Landmark::Ankle}].origin = Origin::Proposed;
    const auto has = [](const Readings& r, std::string_view measure) {
        return std::any_of(r.summary.begin(), r.summary.end(),
                           [&](const Summary& s) { return s.measure == measure; });
    };
    const auto readings = *readingsOf(clip);
    CHECK(findReading(readings, "foot_ahead")->value);
    CHECK_FALSE(findReading(readings, "foot_ahead")->confirmed);
    CHECK_FALSE(has(readings, "foot_ahead"));
    CHECK(has(readings, "hips_behind"));
    CHECK(has(*readingsOf(clip, true), "foot_ahead"));
}
