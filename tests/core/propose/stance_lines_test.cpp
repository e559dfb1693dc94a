// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/stance_lines.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/belt_runner.hpp"

#include <algorithm>

using namespace latemile;
using namespace latemile::tests;

namespace {

std::vector<StanceLine> linesOf(const BeltRunner& runner)
{
    return stanceLines(runner.bodies, runner.times);
}

/// Every so many frames one.
BeltRunner thinned(const BeltRunner& runner, std::size_t every)
{
    BeltRunner thin(0);
    for (std::size_t k = 0; k < runner.bodies.size(); k += every) {
        thin.bodies.push_back(runner.bodies[k]);
        thin.times.push_back(runner.times[k]);
    }
    return thin;
}

} // namespace

TEST_CASE("each stance is one line, of the foot that stands and of all frames on which it does",
          "[propose]")
{
    const BeltRunner runner(260); // 2.17 s: six steps of 0.36 s, all stances whole
    const auto lines = linesOf(runner);
    REQUIRE(lines.size() == 6);
    for (std::size_t n = 0; n < lines.size(); ++n) {
        CAPTURE(n);
        const bool isLeft = n % 2 == 0; // the left foot stands first
        CHECK(std::ranges::all_of(lines[n],
                                  [&](const FootSeen& foot) { return foot.isLeft == isLeft; }));
        CHECK(std::ranges::count_if(lines[n], [&](const FootSeen& foot) {
                  return stands(foot.body, isLeft);
              }) >= 35); // 0.3 s are 36 frames, the last of which may round to the next phase
    }
}

TEST_CASE("a stance goes on across frames on which the network exchanges or merges the legs",
          "[propose]")
{
    BeltRunner runner(130);
    const auto whole = linesOf(runner);
    REQUIRE(whole.size() == 3);
    constexpr std::size_t exchanged = 15; // within the first stance, frames 6 to 41
    constexpr std::size_t merged = 16;
    runner.exchangeLegs(exchanged);
    runner.mergeLegs(merged);
    const auto lines = linesOf(runner);
    REQUIRE(lines.size() == 3);
    const auto has = [&](std::size_t body, bool isLeft) {
        return std::ranges::count(lines[0], FootSeen{body, isLeft}) > 0;
    };
    CHECK(has(exchanged, false)); // the foot that stands, though called the right one
    CHECK_FALSE(has(exchanged, true));
    CHECK(has(exchanged - 1, true));
    CHECK(has(merged + 1, true));
    CHECK(lines[0].back() == whole[0].back());
}

TEST_CASE("where frames lie too far apart to tell a speed, or nobody is seen, there is no stance",
          "[propose]")
{
    const BeltRunner runner(260);
    CHECK(linesOf(thinned(runner, 7)).empty()); // 58 ms apart
    CHECK(linesOf(thinned(runner, 4)).size() == 6);
    CHECK(stanceLines({}, {}).empty());
}

TEST_CASE("who stands beside the belt before she runs is in no stance", "[propose]")
{
    for (const std::size_t standing : {60U, 200U, 300U}) { // of 260 running: half a second to more
        BeltRunner runner(260);
        runner.standBefore(standing);
        for (const auto& line : linesOf(runner)) {
            CAPTURE(standing, line.front().body);
            CHECK(line.front().body >= standing);
            CHECK(std::ranges::all_of(line, [&line](const FootSeen& foot) {
                return foot.isLeft == line.front().isLeft;
            }));
        }
    }
}

TEST_CASE("feet that come down in the same place again and again are in no stance", "[propose]")
{
    BeltRunner runner(260); // on the spot: each foot up and down beneath the hips
    for (std::size_t k = 0; k < runner.bodies.size(); ++k) {
        for (const bool isLeft : {true, false}) {
            for (const auto landmark : {Landmark::Ankle, Landmark::Heel, Landmark::Toe}) {
                auto& at = runner.bodies[k].points[*networkPoint(landmark) + (isLeft ? 0U : 1U)].at;
                at.u = isLeft ? -5.0 : 5.0;
            }
        }
    }
    CHECK(linesOf(runner).empty());
}
