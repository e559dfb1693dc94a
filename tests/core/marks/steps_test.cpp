// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/steps.hpp"

#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

FrameIndex at120(int frames = 240)
{
    std::vector<Seconds> times;
    for (int i = 0; i < frames; ++i) {
        times.push_back(Seconds{i / 120.0});
    }
    return FrameIndex(times);
}

Stance stance(Foot foot, double contact, double toeOff)
{
    return {foot, Seconds{contact}, Seconds{toeOff}, Origin::Placed, std::nullopt};
}

} // namespace

TEST_CASE("a step goes to the other foot's contact and a stride to the same foot's", "[marks]")
{
    const auto steps = stepsOf({stance(Foot::Left, 0.10, 0.35), stance(Foot::Right, 0.46, 0.71),
                                stance(Foot::Left, 0.82, 1.07)},
                               at120());
    REQUIRE(steps.size() == 3);
    CHECK(steps[0].nextContact == Seconds{0.46});
    CHECK(steps[0].strideEnd == Seconds{0.82});
    CHECK(steps[1].nextContact == Seconds{0.82});
    CHECK_FALSE(steps[1].strideEnd);
    CHECK_FALSE(steps[2].nextContact);
}

TEST_CASE("two contacts of one foot in a row make no step of them", "[marks]")
{
    const auto steps =
        stepsOf({stance(Foot::Left, 0.10, 0.35), stance(Foot::Left, 0.82, 1.07)}, at120());
    CHECK_FALSE(steps[0].nextContact);
    CHECK_FALSE(steps[0].strideEnd);
}

TEST_CASE("stances are numbered in order of contact, however they were written", "[marks]")
{
    const auto steps =
        stepsOf({stance(Foot::Right, 0.46, 0.71), stance(Foot::Left, 0.10, 0.35)}, at120());
    CHECK(steps[0].foot == Foot::Left);
    CHECK(steps[0].number == StepNumber{1});
}

TEST_CASE("an event without a stated error has quantisation and half a frame of judgement",
          "[marks][outside]")
{
    // A uniform distribution of width T has SD T / sqrt(12): JCGM 100:2008 (GUM) 4.3.7, from
    // memory.
    const auto steps = stepsOf({stance(Foot::Left, 0.10, 0.35)}, at120());
    CHECK(steps[0].eventError.count() == Approx(std::hypot(1.0 / std::sqrt(12.0), 0.5) / 120.0));
    auto stated = stance(Foot::Left, 0.10, 0.35);
    stated.se = Seconds{0.002};
    CHECK(stepsOf({stated}, at120())[0].eventError == Seconds{0.002});
}

TEST_CASE("contact and toe-off stand on the first frame at or after the event", "[marks]")
{
    const auto index = at120();
    const auto step = stepsOf({stance(Foot::Left, 11.5 / 120.0, 42.5 / 120.0)}, index)[0];
    CHECK(frameOf(step, Instant::Contact, index) == FrameNumber{12});
    CHECK(frameOf(step, Instant::ToeOff, index) == FrameNumber{43});
}

TEST_CASE(
    "mid-stance half-way between two frames is the earlier, whatever the rounding of the times",
    "[marks]")
{
    const auto index = at120();
    for (const double rounding : {-4e-6, 0.0, 4e-6}) {
        const auto step =
            stepsOf({stance(Foot::Left, 11.5 / 120.0 + rounding, 43.5 / 120.0)}, index)[0];
        CHECK(frameOf(step, Instant::MidStance, index) ==
              FrameNumber{27}); // (11.5 + 43.5) / 2 = 27.5
    }
    const auto step = stepsOf({stance(Foot::Left, 11.5 / 120.0, 42.5 / 120.0)}, index)[0];
    CHECK(frameOf(step, Instant::MidStance, index) == FrameNumber{27}); // 27.0
}

TEST_CASE("an instant outside the clip or without its events has no frame", "[marks]")
{
    const auto index = at120(60);
    auto open = stance(Foot::Left, 0.40, 0.65);
    CHECK_FALSE(frameOf(stepsOf({open}, index)[0], Instant::ToeOff, index));
    open.toeOff.reset();
    CHECK_FALSE(frameOf(stepsOf({open}, index)[0], Instant::MidStance, index));
    CHECK_FALSE(frameOf(stepsOf({open}, index)[0], Instant::MidSwing, index));
}

TEST_CASE("a hole of more than one and a half frames inside a step is told", "[marks]")
{
    auto times = at120().times();
    times.erase(times.begin() + 30, times.begin() + 32);
    const FrameIndex index(times);
    const auto steps =
        stepsOf({stance(Foot::Left, 0.10, 0.35), stance(Foot::Right, 0.46, 0.71)}, index);
    CHECK(steps[0].gap);
    CHECK_FALSE(steps[1].gap);
}
