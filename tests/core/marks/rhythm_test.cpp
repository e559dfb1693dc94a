// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/rhythm.hpp"

#include "tests/catch.hpp"

#include <algorithm>

using namespace latemile;

namespace {

using Kind = RhythmFault::Kind;

/// `count` stances of alternate feet, a contact every 350 ms, 250 ms on the ground.
std::vector<Stance> evenRun(int count)
{
    std::vector<Stance> stances;
    for (int n = 0; n < count; ++n) {
        const Seconds contact{0.1 + 0.35 * n};
        stances.push_back({n % 2 == 0 ? Foot::Left : Foot::Right, contact, contact + Seconds{0.25},
                           Origin::Placed, std::nullopt});
    }
    return stances;
}

} // namespace

TEST_CASE("an even run has no fault, and neither has one that is only begun", "[marks]")
{
    CHECK(rhythmFaults({}).empty());
    for (int count = 1; count < 9; ++count) {
        auto stances = evenRun(count);
        CHECK(rhythmFaults(stances).empty());
        stances.back().toeOff.reset();
        CHECK(rhythmFaults(stances).empty());
    }
}

TEST_CASE("an asymmetry as runners have it is no fault", "[marks]")
{
    // Step times may differ by 6 % between the feet and by 3 % from step to step: common practice,
    // no source.
    auto stances = evenRun(8);
    for (std::size_t n = 0; n < stances.size(); ++n) {
        const Seconds shift{n % 2 == 0 ? 0.0 : 0.021 + 0.01 * static_cast<double>(n % 3)};
        stances[n].contact += shift;
        *stances[n].toeOff += shift;
    }
    CHECK(rhythmFaults(stances).empty());
}

TEST_CASE("a contact left out is told where it should be", "[marks]")
{
    auto stances = evenRun(7);
    stances.erase(stances.begin() + 3); // the right foot at 1.15 s
    const auto faults = rhythmFaults(stances);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].kind == Kind::MissedContact);
    CHECK(faults[0].foot == Foot::Right);
    CHECK(faults[0].at.count() == Approx(1.15));
    CHECK(faults[0].sentence ==
          "Between step 3 and step 4 a contact of the right foot is missing.");
}

TEST_CASE("a contact of each foot left out is told by the rhythm of the others", "[marks]")
{
    auto stances = evenRun(9);
    stances.erase(stances.begin() + 4, stances.begin() + 6); // left at 1.5 s and right at 1.85 s
    const auto faults = rhythmFaults(stances);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].kind == Kind::MissedContact);
    CHECK(faults[0].foot == Foot::Left);
    CHECK(faults[0].at.count() == Approx(1.5));
}

TEST_CASE("a contact marked twice is told at the second", "[marks]")
{
    auto stances = evenRun(5);
    stances[2].toeOff = stances[2].contact + Seconds{0.05};
    stances.insert(stances.begin() + 3,
                   Stance{Foot::Left, stances[2].contact + Seconds{0.16},
                          stances[2].contact + Seconds{0.25}, Origin::Placed, std::nullopt});
    const auto faults = rhythmFaults(stances);
    const auto doubled = std::ranges::find(faults, Kind::DoubledContact, &RhythmFault::kind);
    REQUIRE(doubled != faults.end());
    CHECK(doubled->foot == Foot::Left);
    CHECK(doubled->at.count() == Approx(0.96));
}

TEST_CASE("a contact given to the wrong time breaks the interval on both sides", "[marks]")
{
    auto stances = evenRun(8);
    stances[4].contact -= Seconds{0.15}; // 1.35 s instead of 1.5 s
    const auto faults = rhythmFaults(stances);
    REQUIRE(faults.size() == 4);
    CHECK(faults[0].kind == Kind::OddInterval); // 200 ms after the one before
    CHECK(faults[1].kind == Kind::LateToeOff);  // the other foot leaves at 1.4 s
    CHECK(faults[2].kind == Kind::OddStance);   // 400 ms on the ground
    CHECK(faults[3].kind == Kind::OddInterval); // 500 ms to the next
}

TEST_CASE("a toe-off passed over is told where the others would have it", "[marks]")
{
    auto stances = evenRun(5);
    stances[1].toeOff.reset();
    const auto faults = rhythmFaults(stances);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].kind == Kind::MissedToeOff);
    CHECK(faults[0].at.count() == Approx(0.45 + 0.25));
    CHECK(faults[0].sentence == "The toe-off of step 2 (right) is missing.");
}

TEST_CASE("a toe-off after the other foot's contact is told", "[marks]")
{
    auto stances = evenRun(3);
    stances[0].toeOff = stances[1].contact + Seconds{0.01};
    const auto faults = rhythmFaults(stances);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].kind == Kind::LateToeOff);
}

TEST_CASE("after a contact its toe-off is expected, after that the other foot", "[marks]")
{
    CHECK_FALSE(nextExpected({}));
    auto stances = evenRun(5);
    auto next = nextExpected(stances);
    REQUIRE(next);
    CHECK_FALSE(next->isToeOff);
    CHECK(next->foot == Foot::Right);
    CHECK(next->at.count() == Approx(1.5 + 0.35));
    stances.back().toeOff.reset();
    next = nextExpected(stances);
    REQUIRE(next);
    CHECK(next->isToeOff);
    CHECK(next->foot == Foot::Left);
    CHECK(next->at.count() == Approx(1.5 + 0.25));
}
