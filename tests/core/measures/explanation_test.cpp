// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/explanation.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using namespace latemile;
using namespace latemile::testing;

namespace {

Explanation of(std::string_view id, const MarkedClip& clip, std::optional<int> step = 1)
{
    const auto number = step ? std::optional(StepNumber{*step}) : std::nullopt;
    return explain(clip, *findMeasure(id), number).value();
}

double shareOf(const Explanation& it, const std::string& source)
{
    const auto found = std::ranges::find(it.sources, source, &ErrorSource::name);
    return found == it.sources.end() ? 0.0 : found->share;
}

const Remedy* remedyOf(const Explanation& it, const std::string& part)
{
    const auto found = std::ranges::find_if(it.remedies, [&](const Remedy& remedy) {
        return remedy.what.find(part) != std::string::npos;
    });
    return found == it.remedies.end() ? nullptr : &*found;
}

} // namespace

TEST_CASE("the shares of an error are those of its sources and make up the whole", "[measures]")
{
    const auto clip = exampleClip();
    const auto readings = *readingsOf(clip);
    for (const auto* id : {"foot_ahead", "knee_flex_contact", "trunk_lean", "contact_time"}) {
        INFO(id);
        const auto it = of(id, clip);
        const auto* reading = findReading(readings, id);
        CHECK(*it.value == Approx(*reading->value));
        CHECK(*it.se == Approx(*reading->se));
        double sum = 0.0;
        for (const auto& source : it.sources) {
            sum += source.share;
        }
        CHECK(sum == Approx(1.0));
        CHECK(std::ranges::is_sorted(it.sources, std::greater<>(), &ErrorSource::share));
    }
}

TEST_CASE("two equal marks share an offset's error between them", "[measures]")
{
    // By hand: k sqrt(2) sigma, each mark half of the variance of both.
    const auto it = of("foot_ahead", exampleClip());
    CHECK(shareOf(it, "marks of the hip") == Approx(shareOf(it, "marks of the ankle")));
    CHECK(it.marks.size() == 2);
}

TEST_CASE("what would help is worked out from the shares", "[measures]")
{
    SECTION("times are all events: twice the rate halves the error")
    {
        const auto it = of("contact_time", exampleClip());
        REQUIRE(it.remedies.size() == 1);
        CHECK(it.remedies.front().what == "Film at twice the frame rate");
        CHECK(it.remedies.front().seAfter == Approx(*it.se / 2.0));
        CHECK_THAT(it.remedies.front().sentence, containing("by 50 %"));
    }
    SECTION("a hip by default: tape on it leaves 0.3 of 1.2 cm")
    {
        auto clip = exampleClip();
        for (auto& [key, mark] : clip.marking.marks) {
            mark.sePx.reset();
        }
        const auto it = of("foot_ahead", clip);
        const auto* tape = remedyOf(it, "tape on the hip");
        REQUIRE(tape);
        const double left = shareOf(it, "marks of the hip") * (1.0 - 0.3 * 0.3 / (1.2 * 1.2));
        CHECK(tape->seAfter == Approx(*it.se * std::sqrt(1.0 - left)));
        CHECK(std::ranges::is_sorted(it.remedies, {}, &Remedy::seAfter));
    }
    SECTION("a mean gains by more steps, a step does not")
    {
        auto clip = exampleClip();
        CHECK_FALSE(remedyOf(of("contact_time", clip), "twice as many steps"));
        CHECK(remedyOf(of("contact_time", clip, std::nullopt), "twice as many steps"));
    }
}

TEST_CASE("a mean's error is the spread of its steps with what they share", "[measures]")
{
    // Contact of two steps, 252 and 254 ms: variance 2, of the mean 1 ms^2 or what their events
    // give, whichever is more; and twice 0.25 frames of 2 ms in common.
    const auto it = of("contact_time", exampleClip(), std::nullopt);
    CHECK(it.steps == 2);
    CHECK(*it.value == Approx(253.0));
    const double event = 2.0 * std::sqrt(0.5 * 0.5 - 0.25 * 0.25 + 1.0 / 12.0); // ms, its own
    const double alone = std::max(1.0, 2.0 * event * event / 2.0);
    CHECK(*it.se == Approx(std::hypot(std::sqrt(alone), std::sqrt(2.0) * 0.25 * 2.0)));
}

TEST_CASE("a mean of one foot and of confirmed steps alone leaves the others out", "[measures]")
{
    // Contact of the right step 252 ms, of the left 254 ms.
    auto clip = exampleClip();
    const auto& measure = *findMeasure("contact_time");
    const auto left = explainMean(clip, measure, {.foot = Foot::Left}).value();
    CHECK(left.steps == 1);
    CHECK(*left.value == Approx(254.0));
    CHECK(left.foot == Foot::Left);
    clip.marking.stances[1].origin = Origin::Proposed;
    const auto confirmed = explainMean(clip, measure, {.confirmedOnly = true}).value();
    CHECK(confirmed.steps == 1);
    CHECK(*confirmed.value == Approx(252.0));
    const auto none =
        explainMean(clip, measure, {.foot = Foot::Left, .confirmedOnly = true}).value();
    CHECK_FALSE(none.value);
    CHECK_THAT(none.reason, containing("step 2") && containing("confirmed"));
    CHECK(explain(clip, measure, std::nullopt)->steps == 2);
}

TEST_CASE("what cannot be explained says why", "[measures]")
{
    const auto clip = exampleClip();
    CHECK_FALSE(explain(clip, *findMeasure("foot_ahead"), StepNumber{9}));
    CHECK_THAT(of("foot_ahead", clip, 2).reason, containing("far foot"));
    CHECK_THAT(of("pelvic_drop", clip).reason, containing("behind"));
    CHECK_THAT(of("k_vert", clip, 1).reason, containing("leave the step out"));
    CHECK_THAT(textOf(of("pelvic_drop", clip, std::nullopt)), containing("no value"));
    CHECK(toJson(of("pelvic_drop", clip))["value"].is_null());
}
