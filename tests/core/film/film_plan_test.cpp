// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/film/film_plan.hpp"

#include "core/store/session.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <algorithm>

using namespace latemile;

namespace {

/// A clip of the sample athlete's third day.
SheetClip sampleClip(const char* condition)
{
    const auto folder = tests::sourceFolder() / "sample_clips/ilse-varga/2026-10-24";
    const auto session = readSession(folder);
    REQUIRE(session);
    auto clip = sheetClipOf(folder, *session, condition, {});
    REQUIRE(clip);
    return *clip;
}

FilmWish wishFor(int steps)
{
    FilmWish wish;
    wish.steps = steps;
    return wish;
}

/// The pictures on which the film stands, by moment and step, each run of them once.
std::vector<std::pair<Instant, int>> standsOf(const FilmPlan::Side& side)
{
    std::vector<std::pair<Instant, int>> stands;
    for (const auto& shot : side.shots) {
        const std::pair now{shot.still.instant, shot.still.step.value};
        if (shot.stands && (stands.empty() || stands.back() != now)) {
            stands.push_back(now);
        }
    }
    return stands;
}

} // namespace

TEST_CASE("a film stands at contact and mid-stance of each step, with the lines", "[film]")
{
    const auto plan = filmOf(sampleClip("fresh"), wishFor(2));
    REQUIRE(plan);
    const auto& side = plan->sides.front();
    const auto stands = standsOf(side);
    REQUIRE(stands.size() == 4);
    CHECK(stands[0].first == Instant::Contact);
    CHECK(stands[1].first == Instant::MidStance);
    CHECK(stands[0].second == stands[1].second);
    CHECK(stands[2].second == stands[0].second + 2); // the near foot again
    for (const auto& shot : side.shots) {
        CHECK(shot.still.measured.empty() == !shot.stands);
        if (shot.stands) {
            CHECK(shot.still.landmarks.size() >= 3);
            CHECK(shot.still.measured.front().letter.empty());
        }
    }
}

TEST_CASE("a number that nobody confirmed does not stand on a film", "[film]")
{
    auto clip = sampleClip("fresh");
    const auto numbers = [&clip] {
        const auto plan = filmOf(clip, wishFor(1));
        REQUIRE(plan);
        std::size_t count = 0;
        for (const auto& shot : plan->sides.front().shots) {
            count += static_cast<std::size_t>(std::ranges::count_if(
                shot.still.measured, [](const auto& shown) { return shown.value.has_value(); }));
        }
        return count;
    };
    CHECK(numbers() > 0);
    for (auto& reading : clip.readings.readings) {
        reading.confirmed = false;
    }
    CHECK(numbers() == 0);
}

TEST_CASE("a film plays as many times slower as it is asked to", "[film]")
{
    const auto clip = sampleClip("fresh");
    for (const double slower : {2.0, 8.0}) {
        auto wish = wishFor(1);
        wish.slower = slower;
        const auto plan = filmOf(clip, wish);
        REQUIRE(plan);
        const auto& shots = plan->sides.front().shots;
        const auto playing = std::ranges::count(shots, false, &FilmShot::stands);
        const auto real = shots.back().at - shots.front().at;
        CHECK(static_cast<double>(playing) / filmRate / real.count() ==
              Approx(slower).epsilon(0.05));
        CHECK(std::ranges::is_sorted(shots, {}, &FilmShot::at));
    }
}

TEST_CASE("fresh and fatigued come to each moment together", "[film]")
{
    const auto plan = filmOf(sampleClip("fresh"), sampleClip("fatigued"), wishFor(2));
    REQUIRE(plan);
    REQUIRE(plan->sides.size() == 2);
    const auto& fresh = plan->sides[0];
    const auto& late = plan->sides[1];
    CHECK(late.fatigued);
    REQUIRE(fresh.shots.size() == late.shots.size());
    for (std::size_t i = 0; i < fresh.shots.size(); ++i) {
        CHECK(fresh.shots[i].stands == late.shots[i].stands);
        if (fresh.shots[i].stands) {
            CHECK(fresh.shots[i].still.instant == late.shots[i].still.instant);
        }
    }
}

TEST_CASE("on a belt a film's crop stays where it is and holds the whole runner", "[film]")
{
    const auto plan = filmOf(sampleClip("fresh"), wishFor(3));
    REQUIRE(plan);
    const auto& shots = plan->sides.front().shots;
    for (const auto& shot : shots) {
        CHECK(shot.still.cropFrom == shots.front().still.cropFrom);
        CHECK(shot.still.cropTo == shots.front().still.cropTo);
        for (const auto& mark : shot.still.landmarks) {
            CHECK(mark.at.u > shot.still.cropFrom.u);
            CHECK(mark.at.u < shot.still.cropTo.u);
            CHECK(mark.at.v < shot.still.cropTo.v);
        }
    }
    const auto& still = shots.front().still;
    CHECK((still.cropTo.u - still.cropFrom.u) / (still.cropTo.v - still.cropFrom.v) ==
          Approx(stillAspect).epsilon(0.001));
}

TEST_CASE("a clip without a step to show is refused by name", "[film][refusals]")
{
    auto clip = sampleClip("fresh");
    auto wish = wishFor(1);
    wish.from = StepNumber{900};
    const auto late = filmOf(clip, wish);
    REQUIRE_FALSE(late);
    CHECK(late.error().sentence.find("from step 900 on") != std::string::npos);
    clip.clip.marking.marks.clear();
    const auto bare = filmOf(clip, wishFor(1));
    REQUIRE_FALSE(bare);
    CHECK(bare.error().sentence.find("fresh.mp4") != std::string::npos);
}

TEST_CASE("a film's clock tells when a moment of the clip is seen", "[film]")
{
    const auto plan = filmOf(sampleClip("fresh"), wishFor(1));
    REQUIRE(plan);
    const auto& side = plan->sides.front();
    const auto clock = clockOf(side);
    const auto stands = std::ranges::find(side.shots, true, &FilmShot::stands);
    const auto first = static_cast<double>(stands - side.shots.begin()) / filmRate;
    CHECK(clock(stands->at).count() == Approx(first));
    CHECK(clock(Seconds{-1}).count() == 0.0);
    CHECK(clock(Seconds{1e6}).count() == Approx(static_cast<double>(side.shots.size()) / filmRate));
}
