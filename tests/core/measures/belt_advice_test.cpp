// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/belt_advice.hpp"

#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

using namespace latemile;
using namespace latemile::testing;
using Cause = BeltAdvice::Cause;

namespace {

BeltAdvice adviceFor(double ratio, double se = 0.01)
{
    return beltAdvice(BeltWitness{ratio, se, 0.0, 6}, 120.0, 2.7);
}

} // namespace

TEST_CASE("a foot that keeps up with the belt needs no advice", "[checks]")
{
    CHECK(adviceFor(1.02).cause == Cause::Agrees);
    CHECK(adviceFor(0.93, 0.05).cause == Cause::Agrees); // within two standard errors
}

TEST_CASE("slow motion taken for real time is recognised by its power of two", "[checks]")
{
    const auto half = adviceFor(0.51);
    CHECK(half.cause == Cause::CaptureRate);
    CHECK(*half.captureRate == Approx(240.0));
    CHECK_THAT(half.sentence, containing("0.51"));
    CHECK_THAT(half.sentence, containing("240 frames/s"));
    CHECK(*adviceFor(0.124).captureRate == Approx(960.0));
    CHECK(*adviceFor(3.9).captureRate == Approx(30.0));
}

TEST_CASE("miles typed as kilometres are recognised, and the reverse", "[checks]")
{
    // The mile is 1609.344 m by definition (1959 agreement): 6 mph is 2.68 m/s, 6 km/h 1.67 m/s.
    const auto miles = beltAdvice(BeltWitness{1.61, 0.01, 0.0, 6}, 120.0, 6.0 / 3.6);
    CHECK(miles.cause == Cause::SpeedUnit);
    CHECK(*miles.beltSpeed == Approx(2.68224).margin(0.0001));
    const auto kilometres = beltAdvice(BeltWitness{0.62, 0.01, 0.0, 6}, 120.0, 10.0 * 0.44704);
    CHECK(kilometres.cause == Cause::SpeedUnit);
    CHECK(*kilometres.beltSpeed == Approx(10.0 / 3.6).margin(0.0001));
}

TEST_CASE("any other ratio points to the scale line, backwards to view and travel", "[checks]")
{
    const auto scale = adviceFor(0.8);
    CHECK(scale.cause == Cause::Scale);
    CHECK(*scale.scaleFactor == Approx(1.25));
    CHECK_FALSE(scale.captureRate);
    const auto backwards = adviceFor(-0.9);
    CHECK(backwards.cause == Cause::Scale);
    CHECK_FALSE(backwards.scaleFactor);
}

TEST_CASE("a belt of known speed gives the scale where no line was drawn", "[checks]")
{
    // By hand: a toe that goes 750 px/s on a belt of 3 m/s has pixels of 0.4 cm.
    auto clip = exampleClip();
    const auto first = clip.index.firstAtOrAfter(Seconds{0.1}).value;
    const auto last = clip.index.firstAtOrAfter(Seconds{0.352}).value;
    for (auto i = first; i <= last; ++i) {
        const double along = -750.0 * (clip.index.time({i}).count() - 0.1);
        clip.marking.marks[{{i}, BodySide::Near, Landmark::Toe}] = {
            PixelPoint{1068.0 + along, 990.0}, Origin::Placed, 1.0};
    }
    clip.conditions.scene.scale.reset();
    clip.conditions.scene.beltSpeed = 3.0;
    clip.athlete.legLengthCm.reset();
    const auto prepared = prepare(clip);
    REQUIRE(prepared);
    const auto scale = scaleFromBelt(*prepared);
    REQUIRE(scale);
    CHECK(scale->cmPerPixel == Approx(0.4).margin(0.002));
    CHECK(scale->relativeError >= 0.015);
    CHECK(scale->relativeError < 0.05);
}
