// SPDX-License-Identifier: GPL-3.0-or-later
// What nobody confirmed has no say in what the coach stands behind: numbers with proposals all over
// the clip are those of the coach's marks alone, to the last bit.
#include "core/measures/explanation.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/readings_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace latemile;
using namespace latemile::testing;

namespace {

/// As a coach marks it: the first contact lies half a frame before its frame.
MarkedClip coachsClip()
{
    auto clip = exampleClip();
    clip.marking.stances.front().contact -= Seconds{0.001};
    return clip;
}

/// Proposed or followed marks of the whole near side on all frames the coach left free, some
/// centimetres off.
MarkedClip withProposals(MarkedClip clip, Origin origin)
{
    std::mt19937 random(3);
    std::normal_distribution<double> off(0.0, 8.0);
    for (std::int64_t frame = 0; frame < clip.index.size(); ++frame) {
        for (const auto& point : examplePoints) {
            const MarkKey key{{frame}, BodySide::Near, point.landmark};
            clip.marking.marks.try_emplace(
                key, Mark{{point.contact.u + off(random), point.contact.v + off(random)},
                          origin,
                          std::nullopt});
        }
    }
    return clip;
}

void checkSame(const Readings& one, const Readings& other)
{
    REQUIRE(one.summary.size() == other.summary.size());
    for (std::size_t i = 0; i < one.summary.size(); ++i) {
        CAPTURE(one.summary[i].measure);
        CHECK(one.summary[i].measure == other.summary[i].measure);
        CHECK(one.summary[i].n == other.summary[i].n);
        CHECK(one.summary[i].mean == other.summary[i].mean);
        CHECK(one.summary[i].se == other.summary[i].se);
    }
    for (const auto& reading : other.readings) {
        if (reading.value && reading.step) {
            const auto* same = findReading(one, reading.measure, reading.step->value);
            REQUIRE(same);
            CAPTURE(reading.measure);
            CHECK(same->value == reading.value);
            CHECK(same->se == reading.se);
            CHECK(same->confirmed);
        }
    }
}

} // namespace

TEST_CASE("proposed and followed marks change no number the coach stands behind", "[measures]")
{
    const auto alone = *readingsOf(coachsClip());
    for (const auto origin : {Origin::Proposed, Origin::Followed}) {
        const auto clip = withProposals(coachsClip(), origin);
        const auto readings = *readingsOf(clip);
        checkSame(readings, alone);
        // And a measure that takes marks on all frames is had by proposals alone, unconfirmed.
        int unconfirmed = 0;
        for (const auto& reading : readings.readings) {
            unconfirmed += reading.value && !reading.confirmed ? 1 : 0;
        }
        CHECK(unconfirmed > 5);
    }
}

TEST_CASE("without a scale line the leg that is the ruler is the one the coach marked",
          "[measures]")
{
    auto clip = coachsClip();
    clip.conditions.scene.scale.reset();
    const auto alone = *readingsOf(clip);
    REQUIRE(alone.clip.scaleFrom == ScaleFrom::LegLength);
    checkSame(*readingsOf(withProposals(clip, Origin::Proposed)), alone);
}

TEST_CASE("what is read at a step whose events were only found is not confirmed", "[measures]")
{
    // Mid-stance and mid-swing are read on frames that contact and toe-off choose.
    auto clip = coachsClip();
    clip.marking.stances.front().origin = Origin::Proposed;
    const auto readings = *readingsOf(clip);
    for (const auto* id : {"head_forward", "trunk_lean", "foot_ahead", "contact_time"}) {
        CAPTURE(id);
        const auto* reading = findReading(readings, id);
        REQUIRE(reading);
        CHECK(reading->value);
        CHECK_FALSE(reading->confirmed);
    }
    // The left step stands by itself and keeps its number.
    const auto* left = findReading(readings, "contact_time", 2);
    REQUIRE(left);
    CHECK(left->confirmed);
    CHECK(*left->value == Approx(254.0));
    for (const auto& summary : readings.summary) {
        CHECK(summary.measure != "head_forward");
        CHECK(summary.measure != "step_rate"); // the run of steps has a hole
    }
    CHECK(explain(clip, *findMeasure("contact_time"), StepNumber{2})->value == left->value);
    CHECK(explain(clip, *findMeasure("contact_time"), StepNumber{2})->step == StepNumber{2});
}

TEST_CASE("contacts with found ones between them do not follow on each other", "[measures]")
{
    // Contacts every 357 ms, of which the coach confirmed the first and the fourth: a left one
    // after a right one, but not the next.
    auto clip = exampleClip();
    clip.index = FrameIndex([] {
        std::vector<Seconds> times;
        for (int i = 0; i < 1000; ++i) {
            times.push_back(Seconds{0.002 * i});
        }
        return times;
    }());
    clip.marking.stances.clear();
    for (int i = 0; i < 4; ++i) {
        const double contact = 0.1 + 0.357 * i;
        clip.marking.stances.push_back(
            {i % 2 == 0 ? Foot::Right : Foot::Left, Seconds{contact}, Seconds{contact + 0.252},
             i % 3 == 0 ? Origin::Placed : Origin::Proposed, std::nullopt});
    }
    const auto readings = *readingsOf(clip);
    for (const auto& summary : readings.summary) {
        CAPTURE(summary.measure);
        CHECK((summary.measure != "flight_time" && summary.measure != "step_rate" &&
               summary.measure != "step_length"));
    }
    REQUIRE(findReading(readings, "flight_time"));
    CHECK(*findReading(readings, "flight_time")->value == Approx(105.0)); // by the found one
    CHECK_FALSE(findReading(readings, "flight_time")->confirmed);
    CHECK(findReading(readings, "contact_time", 1)->confirmed);
    CHECK(findReading(readings, "contact_time", 4)->confirmed);
}

TEST_CASE("good proposals do not hide a broken bone of the coach's marks", "[measures]")
{
    auto clip = exampleClip();
    clip.marking.marks[{{113}, BodySide::Near, Landmark::Knee}].at = {1000, 930}; // far too low
    const auto bones = [](const MarkedClip& marked) {
        const auto readings = *readingsOf(marked);
        return *std::ranges::find(readings.checks, "bones", &Check::check);
    };
    const auto alone = bones(clip);
    REQUIRE(alone.state != Check::State::Good);
    for (const auto& [key, mark] : exampleClip().marking.marks) {
        for (std::int64_t more = 1; more < 8; ++more) {
            clip.marking.marks[{{key.frame.value + more}, key.side, key.landmark}] = {
                mark.at, Origin::Proposed, 2.0};
        }
    }
    CHECK(bones(clip).state == alone.state);
}

TEST_CASE("a number and its explanation come from the same marks", "[measures]")
{
    const auto clip = withProposals(coachsClip(), Origin::Followed);
    const auto readings = *readingsOf(clip);
    for (const auto* id : {"foot_ahead", "head_forward", "contact_time"}) {
        CAPTURE(id);
        const auto it = explain(clip, *findMeasure(id), StepNumber{1}).value();
        const auto* reading = findReading(readings, id);
        CHECK(it.value == reading->value);
        CHECK(*it.se == Approx(*reading->se));
    }
}

TEST_CASE("counted too, unconfirmed values say so and so does the document", "[measures]")
{
    const auto clip = withProposals(coachsClip(), Origin::Proposed);
    const auto readings = *readingsOf(clip, true);
    CHECK(readings.unconfirmedToo);
    // At contact the frame before it is a proposal, some centimetres off.
    CHECK_FALSE(findReading(readings, "foot_ahead")->confirmed);
    CHECK(findReading(readings, "contact_time")->confirmed);
    CHECK(toJson(readings).at("unconfirmed") == true);
    CHECK_FALSE(toJson(*readingsOf(clip)).contains("unconfirmed"));
    CHECK_FALSE(toJson(*readingsOf(exampleClip(), true)).contains("unconfirmed")); // all is
}
