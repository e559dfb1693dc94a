// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/repeat_result.hpp"

#include "tests/catch.hpp"

#include <algorithm>
#include <cmath>
#include <random>

using namespace latemile;

namespace {

constexpr int steps = 60;

/// Right steps, ankle and hip marked at contact, 0.5 cm a pixel; the foot a little further ahead
/// from step to step.
MarkedClip clip()
{
    MarkedClip made;
    std::vector<Seconds> times;
    for (int i = 0; i < 100 * steps; ++i) {
        times.emplace_back(i * 0.004);
    }
    made.index = FrameIndex(times);
    made.conditions.captureRate = 250.0;
    made.conditions.scene.view = View::RightSide;
    made.conditions.scene.travel = Travel::Right;
    made.conditions.scene.scale = ScaleLine{{100, 900}, {500, 900}, 200.0};
    made.conditions.scene.plumb = PlumbLine{{50, 100}, {50, 900}};
    for (int i = 0; i < steps; ++i) {
        const Seconds contact{0.102 + 0.36 * i};
        made.marking.stances.push_back({i % 2 == 0 ? Foot::Right : Foot::Left, contact,
                                        contact + Seconds{0.25}, Origin::Placed, std::nullopt});
        if (i % 2 == 0) {
            const FrameNumber frame{26 + 90 * i};
            made.marking.marks[{frame, BodySide::Near, Landmark::Hip}] = {
                {400.0, 400.0}, Origin::Placed, std::nullopt};
            made.marking.marks[{frame, BodySide::Near, Landmark::Ankle}] = {
                {440.0 + 0.25 * i, 570.0}, Origin::Placed, std::nullopt};
        }
    }
    return made;
}

/// The same again, with errors of `px` per axis.
Marking again(const Marking& first, double px, unsigned seed)
{
    std::mt19937 random(seed);
    std::normal_distribution<double> error(0.0, px);
    Marking second = first;
    for (auto& [key, mark] : second.marks) {
        mark.at.u += error(random);
        mark.at.v += error(random);
    }
    return second;
}

const MeasureRepeat& of(const RepeatResult& result, const std::string& id)
{
    const auto found = std::ranges::find(result.measures, id, &MeasureRepeat::measure);
    REQUIRE(found != result.measures.end());
    return *found;
}

} // namespace

TEST_CASE("a shift of every second mark by hand's arithmetic", "[compare]")
{
    // Second marks lie 1 px right and 2 px below, then 3 px right and 2 px below, in turn:
    // differences first - second are -1 and -3 across (mean -2, root mean square sqrt(5)), -2 down.
    auto first = clip();
    auto second = first.marking;
    int turn = 0;
    for (auto& [key, mark] : second.marks) {
        if (key.landmark == Landmark::Ankle) {
            mark.at.u += turn++ % 2 == 0 ? 1.0 : 3.0;
            mark.at.v += 2.0;
        }
    }
    const auto result = repeatResult(first, second);
    REQUIRE(result);
    const auto ankle =
        std::ranges::find(result->landmarks, Landmark::Ankle, &LandmarkRepeat::landmark);
    REQUIRE(ankle != result->landmarks.end());
    CHECK(ankle->across.bias.value == Approx(-2.0));
    CHECK(ankle->down.bias.value == Approx(-2.0));
    CHECK(ankle->across.sdAboutZero == Approx(std::sqrt(5.0)));
    // Click error: root mean square of both axes over sqrt(2), 0.5 cm a pixel.
    CHECK(ankle->clickError() == Approx(0.5 * std::sqrt((5.0 + 4.0) / 2.0) / std::sqrt(2.0)));
    // The foot is read 0.5 and 1.5 cm further ahead in turn.
    CHECK(of(*result, "foot_ahead").agreement.bias.value == Approx(-1.0));
}

TEST_CASE("a repeat finds the error its marks were made with", "[compare]")
{
    // Both markings carry 2 px (1 cm) per axis. Of 30 pairs and two axes the error is known to
    // about 1/sqrt(120) = 9 %: three times that is allowed.
    auto first = clip();
    const auto truth = first.marking;
    first.marking = again(truth, 2.0, 1);
    const auto result = repeatResult(first, again(truth, 2.0, 2));
    REQUIRE(result);
    const auto errors = clickErrorsOf(*result);
    CHECK(errors.of(Landmark::Hip) == Approx(1.0).epsilon(0.27));
    CHECK(errors.of(Landmark::Ankle) == Approx(1.0).epsilon(0.27));
    CHECK(errors.of(Landmark::Ear) == defaultClickError(Landmark::Ear));
    // foot_ahead is the difference of two such marks: sqrt(2) cm.
    const auto& ahead = of(*result, "foot_ahead");
    CHECK(ahead.typicalError == Approx(std::sqrt(2.0)).epsilon(0.4));
    CHECK(ahead.mdc95 == Approx(1.96 * std::sqrt(2.0) * ahead.typicalError));
    REQUIRE(ahead.icc31);
    CHECK(ahead.icc31->low < ahead.icc31->value);
}

TEST_CASE("a coach's own errors stand in the readings in place of the defaults", "[compare]")
{
    auto marked = clip();
    const auto seOf = [&] {
        const auto readings = readingsOf(marked);
        REQUIRE(readings);
        const auto found = std::ranges::find_if(readings->readings, [](const Reading& reading) {
            return reading.measure == "foot_ahead" && reading.value;
        });
        REQUIRE(found != readings->readings.end());
        return std::sqrt(found->shares.marks);
    };
    // Two marks' errors in quadrature: hip 1.2 and ankle 0.5 cm by default.
    CHECK(seOf() == Approx(std::hypot(1.2, 0.5)).epsilon(0.01));
    marked.clicks.measured[static_cast<std::size_t>(Landmark::Hip)] = 0.6;
    CHECK(seOf() == Approx(std::hypot(0.6, 0.5)).epsilon(0.01));
}

TEST_CASE("only what both placed is compared", "[compare]")
{
    const auto first = clip();
    auto second = first.marking;
    for (auto& [key, mark] : second.marks) {
        mark.origin = key.landmark == Landmark::Hip ? Origin::Followed : Origin::Placed;
    }
    const auto result = repeatResult(first, second);
    REQUIRE(result);
    CHECK(result->landmarks.size() == 1);
    CHECK(result->measures.empty());
    const auto nothing = repeatResult(first, Marking{});
    REQUIRE_FALSE(nothing);
    CHECK(nothing.error().sentence.find("no mark in common") != std::string::npos);
}
