// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/trust.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

FilmedClip clipAt(double rate)
{
    FilmedClip clip;
    clip.facts.width = 1280;
    clip.facts.height = 720;
    clip.facts.captureRate = rate;
    clip.scene.scale = ScaleLine{{998, 624}, {997, 23}, 200};
    clip.scene.plumb = PlumbLine{{637, 60}, {643, 620}};
    clip.scene.beltSpeed = 2.7;
    return clip;
}

const Remark& about(const std::vector<Remark>& remarks, std::string_view what)
{
    for (const auto& remark : remarks) {
        if (remark.about == what) {
            return remark;
        }
    }
    FAIL("nothing about " << what);
    throw 0;
}

bool says(const std::string& sentence, std::string_view words)
{
    return sentence.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("the check list says what a clip's frame rate gives and what more would", "[filming]")
{
    const auto remarks = trustIn(clipAt(120));
    const auto& time = about(remarks, "time");
    CAPTURE(time.sentence);
    // T sqrt(2/3): 6.8 ms at 120/s, 3.4 ms at 240/s.
    CHECK(says(time.sentence, "8.3 ms apart"));
    CHECK(says(time.sentence, "± 7 ms"));
    CHECK(says(time.sentence, "240 frames/s for ± 3 ms"));
    CHECK(about(trustIn(clipAt(60)), "time").state == Check::State::Doubt);
    CHECK(about(trustIn(clipAt(30)), "time").state == Check::State::Bad);
    CHECK(about(trustIn(clipAt(240)), "time").state == Check::State::Good);
}

TEST_CASE("the check list tells the state of scale, upright and speed", "[filming]")
{
    const auto good = trustIn(clipAt(240));
    CAPTURE(about(good, "scale").sentence, about(good, "upright").sentence);
    // 200 cm over 601 px.
    CHECK(says(about(good, "scale").sentence, "0.33 cm"));
    CHECK(about(good, "scale").state == Check::State::Good);
    CHECK(about(good, "upright").state == Check::State::Good);
    auto bare = clipAt(240);
    bare.scene = Scene{};
    const auto poor = trustIn(bare);
    CAPTURE(about(poor, "upright").sentence);
    for (const char* item : {"scale", "upright", "speed"}) {
        CHECK(about(poor, item).state == Check::State::Doubt);
    }
    CHECK(says(about(poor, "upright").sentence, "with a line ±"));
}

TEST_CASE("scale lines that contradict each other are doubted", "[filming]")
{
    auto clip = clipAt(240);
    clip.scene.moreScales = {ScaleLine{{100, 300}, {400, 300}, 107}}; // 0.357 against 0.333
    CHECK(about(trustIn(clip), "scale").state == Check::State::Doubt);
    clip.scene.moreScales = {ScaleLine{{100, 300}, {400, 300}, 100}};
    CHECK(about(trustIn(clip), "scale").state == Check::State::Good);
}

TEST_CASE("a mirrored clip is told as bad", "[filming]")
{
    auto clip = clipAt(240);
    clip.scene.travel = Travel::Right;
    const auto remarks = trustIn(clip);
    CHECK(about(remarks, "scene").state == Check::State::Bad);
    CHECK(says(about(remarks, "scene").sentence, "mirrored"));
}

TEST_CASE("the most helpful thing is the one that lowers the errors most", "[filming]")
{
    const auto slow = mostHelpful(clipAt(60));
    REQUIRE(slow);
    CAPTURE(*slow);
    CHECK(says(*slow, "film at 240"));
    CHECK(says(*slow, ": contact time ±")); // a name within a sentence begins small
    auto tilted = clipAt(240);
    tilted.scene.plumb.reset();
    tilted.scene.scale = ScaleLine{{200, 600}, {800, 600}, 200};
    const auto level = mostHelpful(tilted);
    REQUIRE(level);
    CAPTURE(*level);
    CHECK(says(*level, "plumb line"));
    CHECK(says(*level, "instead of"));
    CHECK_FALSE(mostHelpful(clipAt(240)));
    auto bare = clipAt(240);
    bare.scene.scale.reset();
    CHECK(says(mostHelpful(bare).value(), "scale line"));
}
