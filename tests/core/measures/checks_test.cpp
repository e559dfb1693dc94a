// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/checks.hpp"

#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <algorithm>

using namespace latemile;
using namespace latemile::testing;

namespace {

/// A near foot that rides a belt of 3 m/s: toe and heel on every frame of stance, 0.4 cm a pixel.
MarkedClip ridingClip(double speedCmPerSecond = 300.0, double slope = 0.0)
{
    auto clip = exampleClip();
    const auto first = clip.index.firstAtOrAfter(Seconds{0.1}).value;
    const auto last = clip.index.firstAtOrAfter(Seconds{0.352}).value;
    for (auto i = first; i <= last; ++i) {
        const double along = -speedCmPerSecond * (clip.index.time({i}).count() - 0.1) / 0.4;
        const PixelPoint toe{1068.0 + along, 990.0 - slope * along};
        clip.marking.marks[{{i}, BodySide::Near, Landmark::Toe}] = {toe, Origin::Placed, 1.0};
        clip.marking.marks[{{i}, BodySide::Near, Landmark::Heel}] = {
            {toe.u - 56.0, toe.v}, Origin::Placed, 1.0};
    }
    return clip;
}

Check checkNamed(const MarkedClip& clip, std::string_view id)
{
    const auto checks = readingsOf(clip)->checks;
    const auto found =
        std::find_if(checks.begin(), checks.end(), [&](const Check& c) { return c.check == id; });
    REQUIRE(found != checks.end());
    return *found;
}

} // namespace

TEST_CASE("a foot that rides the belt passes the belt, line, travel and capture-rate checks",
          "[checks]")
{
    const auto clip = ridingClip();
    for (const auto* id : {"belt", "belt_line", "travel", "capture_rate", "facing", "events",
                           "cadence", "frame_rate"}) {
        INFO(id);
        CHECK(checkNamed(clip, id).state == Check::State::Good);
    }
    CHECK(*checkNamed(clip, "belt").value == Approx(1.0).margin(1e-6));
}

TEST_CASE("a clip taken at eight times the rate used asks for the capture rate", "[checks]")
{
    const auto check = checkNamed(ridingClip(300.0 / 8.0), "capture_rate");
    CHECK(check.state == Check::State::Bad);
    CHECK_THAT(check.sentence, containing("4000 frames/s")); // 500 x 8
}

TEST_CASE("a belt ratio of 0.93 is in doubt and one of 0.85 is bad", "[checks]")
{
    CHECK(checkNamed(ridingClip(0.93 * 300.0), "belt").state == Check::State::Doubt);
    CHECK(checkNamed(ridingClip(0.85 * 300.0), "belt").state == Check::State::Bad);
}

TEST_CASE("a foot that moves forwards in stance contradicts the stated travel", "[checks]")
{
    CHECK(checkNamed(ridingClip(-300.0), "travel").state == Check::State::Bad);
}

TEST_CASE("a belt line of 3 degrees with no incline stated is bad, with its incline stated good",
          "[checks]")
{
    auto clip = ridingClip(300.0, std::tan(3.0 * 3.14159265358979 / 180.0));
    CHECK(checkNamed(clip, "belt_line").state == Check::State::Bad);
    clip.conditions.inclinePercent = 5.24; // tan 3 degrees
    CHECK(checkNamed(clip, "belt_line").state == Check::State::Good);
}

TEST_CASE("toes behind the heels tell of a mirrored clip", "[checks]")
{
    auto clip = ridingClip();
    for (auto& [key, mark] : clip.marking.marks) {
        if (key.landmark == Landmark::Heel) {
            mark.at.u += 112.0;
        }
    }
    CHECK(checkNamed(clip, "facing").state == Check::State::Bad);
}

TEST_CASE("a view and a travel direction that contradict each other are settled before any reading",
          "[checks]")
{
    auto clip = exampleClip();
    clip.conditions.scene.travel = Travel::Left;
    const auto readings = readingsOf(clip);
    REQUIRE_FALSE(readings);
    CHECK_THAT(readings.error().sentence, containing("mirrored"));
}

TEST_CASE("a contact missed between two of one foot is found by the order of the feet", "[checks]")
{
    auto clip = exampleClip();
    clip.marking.stances.erase(clip.marking.stances.begin() + 1);
    const auto check = checkNamed(clip, "events");
    CHECK(check.state == Check::State::Bad);
    CHECK_THAT(check.sentence, containing("step 1"));
}

TEST_CASE("a knee marked on the other leg breaks the bone lengths", "[checks]")
{
    auto clip = exampleClip();
    clip.marking.marks[{{113}, BodySide::Near, Landmark::Knee}].at = {1030, 860};
    CHECK(checkNamed(clip, "bones").state != Check::State::Good);
    CHECK(checkNamed(exampleClip(), "bones").state == Check::State::Good);
}

TEST_CASE("without a scale the belt offers one, and once taken it is the ruler of the readings",
          "[checks]")
{
    auto clip = ridingClip();
    const auto drawn = readingsOf(clip);
    REQUIRE(drawn);
    clip.conditions.scene.scale.reset();
    clip.conditions.scene.beltSpeed = 3.0;
    clip.athlete.legLengthCm.reset();
    const auto offer = checkNamed(clip, "belt_scale");
    CHECK(offer.state == Check::State::Doubt);
    CHECK(*offer.value == Approx(0.4).epsilon(1e-6));
    CHECK(*offer.se >= 0.015 * 0.4); // no belt is known better than 1.5 %
    CHECK(readingsOf(clip)->clip.scaleFrom == ScaleFrom::Nothing);

    clip.conditions.scene.scaleByBelt = true;
    const auto taken = readingsOf(clip);
    REQUIRE(taken);
    CHECK(taken->clip.scaleFrom == ScaleFrom::Belt);
    int distances = 0;
    for (std::size_t i = 0; i < taken->readings.size(); ++i) {
        const auto& reading = taken->readings[i];
        if (reading.measure == "foot_ahead" && reading.value) {
            ++distances;
            CHECK(*reading.value == Approx(*drawn->readings[i].value).epsilon(1e-6));
            CHECK(*reading.se > *drawn->readings[i].se);
        }
    }
    CHECK(distances > 0);
    CHECK_THAT(checkNamed(clip, "belt_scale").sentence, containing("no witness"));

    // The leg's length stands in until then, and is judged by the belt.
    clip.conditions.scene.scaleByBelt = false;
    clip.athlete.legLengthCm = 88.0;
    CHECK(readingsOf(clip)->clip.scaleFrom == ScaleFrom::LegLength);
    CHECK(*checkNamed(clip, "belt_scale").value == Approx(0.4).epsilon(1e-6));
    CHECK(checkNamed(clip, "belt").value);
}

TEST_CASE("without a belt speed a foot that moves forbids distances from step to step", "[checks]")
{
    auto moving = ridingClip();
    moving.conditions.scene.beltSpeed.reset();
    const auto check = checkNamed(moving, "ground");
    CHECK(check.state == Check::State::Bad);
    CHECK(*check.value == Approx(-3.0).epsilon(1e-6));
    CHECK_THAT(check.sentence, containing("turned along"));
    const auto refused = readingsOf(moving);
    REQUIRE(refused);
    int lengths = 0;
    for (const auto& reading : refused->readings) {
        if (reading.measure == "step_length") {
            ++lengths;
            CHECK_FALSE(reading.value);
        }
    }
    CHECK(lengths > 0);

    // The same foot on ground that stands still, and a hip that passes at 3 m/s.
    auto still = ridingClip(0.0);
    still.conditions.scene.beltSpeed.reset();
    for (auto& [key, mark] : still.marking.marks) {
        if (key.landmark == Landmark::Hip) {
            mark.at.u += 750.0 * still.index.time(key.frame).count();
        }
    }
    const auto ground = checkNamed(still, "ground");
    CAPTURE(ground.sentence);
    CHECK(ground.state == Check::State::Good);
    CHECK_THAT(ground.sentence, containing("m/s by the picture"));
}
