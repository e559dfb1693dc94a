// SPDX-License-Identifier: GPL-3.0-or-later
// Whatever is marked or left out, what comes out is a number or a reason, never NaN.
#include "core/compare/comparison.hpp"
#include "core/measures/explanation.hpp"
#include "core/measures/readings_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <random>

using namespace latemile;
using namespace latemile::testing;

namespace {

using Random = std::mt19937;

/// Several steps of the example's figure, every frame marked.
MarkedClip longClip(View view)
{
    MarkedClip clip;
    clip.conditions.scene = exampleScene();
    clip.conditions.scene.view = view;
    clip.conditions.captureRate = 120.0;
    clip.athlete.legLengthCm = 88.0;
    clip.athlete.massKg = 62.0;
    std::vector<Seconds> times;
    for (int i = 0; i < 300; ++i) {
        times.push_back(Seconds{i / 120.0});
    }
    clip.index = FrameIndex(times);
    for (int n = 0; n < 6; ++n) {
        clip.marking.stances.push_back({n % 2 == 0 ? Foot::Right : Foot::Left,
                                        Seconds{0.1 + 0.36 * n}, Seconds{0.35 + 0.36 * n},
                                        Origin::Placed, std::nullopt});
    }
    for (int i = 0; i < 300; ++i) {
        for (const auto& p : examplePoints) {
            const double t = i / 120.0;
            const PixelPoint at{p.contact.u + 20.0 * std::sin(9.0 * t),
                                p.contact.v + 15.0 * std::cos(17.0 * t)};
            for (const auto side :
                 {BodySide::Near, BodySide::Far, BodySide::Left, BodySide::Right}) {
                clip.marking.marks[{{i}, side, p.landmark}] = {at, Origin::Placed, 2.0};
            }
        }
    }
    return clip;
}

/// Does some harm that a careless hand could do.
void harm(MarkedClip& clip, Random& random)
{
    const auto upTo = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
    auto& stance =
        clip.marking
            .stances[static_cast<std::size_t>(upTo(static_cast<int>(clip.marking.stances.size())))];
    auto mark = clip.marking.marks.begin();
    std::advance(mark, upTo(static_cast<int>(clip.marking.marks.size())));
    const auto landmark = mark->first.landmark;
    switch (upTo(12)) {
    case 0:
        std::erase_if(clip.marking.marks,
                      [&](const auto& m) { return m.first.landmark == landmark; });
        break;
    case 1:
        std::erase_if(clip.marking.marks, [&](const auto&) { return upTo(3) == 0; });
        break;
    case 2: // two landmarks on one spot throughout
        for (auto& [key, at] : clip.marking.marks) {
            const auto* hip = clip.marking.find({key.frame, key.side, Landmark::Hip});
            at.at = key.landmark == landmark && hip ? hip->at : at.at;
        }
        break;
    case 3:
        stance.toeOff.reset();
        break;
    case 4:
        stance.toeOff = stance.contact;
        break;
    case 5:
        stance.contact = Seconds{0.0};
        break;
    case 6:
        clip.conditions.scene.beltSpeed.reset();
        break;
    case 7:
        clip.athlete = {};
        break;
    case 8:
        clip.conditions.scene.scale.reset();
        break;
    case 9:
        for (auto& [key, at] : clip.marking.marks) {
            at.sePx = 0.0;
            at.origin = Origin::Followed;
        }
        break;
    case 10:
        stance.foot = otherFoot(stance.foot);
        break;
    default:
        stance.se = Seconds{0.0};
        break;
    }
}

void checkReading(const Reading& reading)
{
    INFO(reading.measure << ": " << reading.reason);
    if (!reading.value) {
        CHECK_FALSE(reading.reason.empty());
        CHECK_FALSE(reading.se);
        return;
    }
    CHECK(std::isfinite(*reading.value));
    CHECK((!reading.se || std::isfinite(*reading.se)));
    const auto& s = reading.shares;
    CHECK(std::isfinite(s.sum()));
    CHECK(std::isfinite(reading.common.events + reading.common.scale + reading.common.plumb +
                        reading.common.belt));
}

void checkAll(const Readings& readings)
{
    for (const auto& reading : readings.readings) {
        checkReading(reading);
    }
    for (const auto& check : readings.checks) {
        INFO(check.check << ": " << check.sentence);
        CHECK((!check.value || std::isfinite(*check.value)));
        CHECK((!check.se || std::isfinite(*check.se)));
        CHECK(check.sentence.find("nan") == std::string::npos);
        CHECK(check.sentence.find("inf ") == std::string::npos);
    }
    for (const auto& summary : readings.summary) {
        INFO(summary.measure);
        CHECK(std::isfinite(summary.mean));
        CHECK(std::isfinite(summary.se));
        CHECK((!summary.sd || std::isfinite(*summary.sd)));
    }
    for (const auto& row : compare(readings, readings).rows) {
        INFO(row.measure);
        CHECK((!row.change || std::isfinite(*row.change)));
        CHECK((!row.halfWidth || std::isfinite(*row.halfWidth)));
        CHECK(row.sentence.find("nan") == std::string::npos);
    }
}

} // namespace

TEST_CASE("harm to marks and events makes reasons, never a number that is none",
          "[measures][property]")
{
    int missing = 0;
    for (unsigned seed = 0; seed < 60; ++seed) {
        Random random(seed);
        auto clip = longClip(seed % 3 == 0 ? View::Rear : View::RightSide);
        for (unsigned i = 0; i < 1 + seed % 4; ++i) {
            harm(clip, random);
            if (clip.marking.marks.empty()) {
                break;
            }
        }
        INFO("seed " << seed);
        const auto readings = readingsOf(clip, true);
        if (!readings) {
            CHECK_FALSE(readings.error().sentence.empty());
            continue;
        }
        checkAll(*readings);
        CHECK(readingsCsv(*readings).find("nan") == std::string::npos);
        for (const auto& reading : readings->readings) {
            missing += reading.value ? 0 : 1;
        }
        for (const auto* id : {"foot_ahead", "k_leg", "elbow_angle", "step_width"}) {
            const auto it = explain(clip, *findMeasure(id), std::nullopt);
            REQUIRE(it);
            CHECK((it->value.has_value() || !it->reason.empty()));
            CHECK((!it->se || std::isfinite(*it->se)));
        }
    }
    CHECK(missing > 1000);
}

TEST_CASE("a missing mark is told with its landmark, instant and step", "[measures]")
{
    auto clip = longClip(View::RightSide);
    const auto reasonOf = [&](std::string_view id) {
        const auto readings = readingsOf(clip).value();
        return findReading(readings, id, 3)->reason;
    };
    const auto contact = clip.index.firstAtOrAfter(clip.marking.stances[2].contact);
    SECTION("at an instant")
    {
        clip.marking.marks.erase({contact, BodySide::Near, Landmark::Knee});
        CHECK(reasonOf("shank_angle") == "knee not marked at contact, step 3");
    }
    SECTION("on the way to an extreme")
    {
        for (std::int64_t i = 5; i < 15; ++i) {
            clip.marking.marks.erase({{contact.value + i}, BodySide::Near, Landmark::Ankle});
        }
        CHECK(reasonOf("knee_flex_stance") ==
              "ankle not marked on frame " + std::to_string(contact.value + 5) +
                  " (every frame between the instants is needed), step 3");
    }
    SECTION("points on one spot have no direction")
    {
        for (auto& [key, mark] : clip.marking.marks) {
            if (key.landmark == Landmark::Ankle) {
                mark.at = clip.marking.find({key.frame, key.side, Landmark::Knee})->at;
            }
        }
        CHECK(reasonOf("shank_angle") ==
              "the points it is taken from lie too near to each other, step 3");
    }
}
