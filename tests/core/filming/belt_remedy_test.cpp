// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/belt_remedy.hpp"

#include "core/scene/scale_lines.hpp"
#include "tests/catch.hpp"

using namespace latemile;

namespace {

/// 120 frames/s as stated, a belt of 2.7 m/s, a pole of 200 cm; the foot found to move so fast.
FilmedClip clipWith(double ratio)
{
    FilmedClip clip;
    clip.facts.captureRate = 120.0;
    clip.scene.scale = ScaleLine{{998, 624}, {997, 23}, 200};
    clip.scene.beltSpeed = 2.7;
    clip.readings.emplace();
    clip.readings->checks = {{"belt", ratio, 0.01, Check::State::Bad, ""}};
    return clip;
}

} // namespace

TEST_CASE("a foot that keeps up with the belt is offered nothing", "[filming]")
{
    CHECK_FALSE(beltRemedy(clipWith(1.01)));
    auto unchecked = clipWith(0.5);
    unchecked.readings.reset();
    CHECK_FALSE(beltRemedy(unchecked));
}

TEST_CASE("the offer changes what is likeliest wrong and nothing else", "[filming]")
{
    const auto slow = clipWith(0.5);
    const auto rate = beltRemedy(slow);
    REQUIRE(rate);
    CHECK(rate->words == "Take 240 frames/s");
    CHECK(rate->scene.captureRate == 240.0);
    CHECK(rate->scene.scale == slow.scene.scale);
    CHECK(rate->scene.beltSpeed == slow.scene.beltSpeed);
    // The mile is 1609.344 m (international yard and pound agreement, 1959).
    const auto unit = beltRemedy(clipWith(1.609));
    REQUIRE(unit);
    CHECK(*unit->scene.beltSpeed == Approx(2.7 * 1.609344));
    CHECK_FALSE(unit->scene.captureRate);
    CHECK(unit->scene.scale == slow.scene.scale);
}

TEST_CASE("a wrong scale is offered the length that would agree", "[filming]")
{
    const auto line = beltRemedy(clipWith(1.25));
    REQUIRE(line);
    CHECK(line->words == "Make the scale line 160.0 cm"); // 200 / 1.25
    CHECK(line->scene.scale->lengthCm == Approx(160.0));

    auto two = clipWith(0.8);
    two.scene.moreScales = {ScaleLine{{100, 600}, {400, 600}, 100}};
    const auto lines = beltRemedy(two);
    REQUIRE(lines);
    CHECK(lines->scene.scale->lengthCm == Approx(250.0));
    CHECK(lines->scene.moreScales.front().lengthCm == Approx(125.0));

    auto cornered = clipWith(0.8);
    cornered.scene.plane = PlaneCorners{.image = {{{0, 400}, {500, 400}, {500, 0}, {0, 0}}},
                                        .cm = {{{0, 0}, {250, 0}, {250, 200}, {0, 200}}}};
    const auto corners = beltRemedy(cornered);
    REQUIRE(corners);
    CHECK(corners->scene.plane->cm[2] == std::array{312.5, 250.0});
    CHECK(corners->scene.scale == cornered.scene.scale);
}

TEST_CASE("a foot that moves forwards has no one correction", "[filming]")
{
    CHECK_FALSE(beltRemedy(clipWith(-0.7)));
}

TEST_CASE("without a scale the belt is offered as the ruler, once", "[filming]")
{
    auto clip = clipWith(1.0);
    clip.scene = withScaleLines(clip.scene, {});
    clip.readings->checks = {{"belt_scale", 0.33, 0.005, Check::State::Doubt, ""}};
    const auto offer = beltRemedy(clip);
    REQUIRE(offer);
    CHECK(offer->about == "belt_scale");
    CHECK(offer->scene.scaleByBelt);
    clip.scene = offer->scene;
    CHECK_FALSE(beltRemedy(clip));
    // The leg's length stands in: there is no line to make longer.
    auto leg = clipWith(0.8);
    leg.scene = withScaleLines(leg.scene, {});
    CHECK_FALSE(beltRemedy(leg));
}
