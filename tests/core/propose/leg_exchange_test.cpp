// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/leg_exchange.hpp"
#include "tests/catch.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

using namespace latemile;

namespace {

constexpr std::array exchangedFrames{11, 12, 25, 40};

/// 60 frames of two swinging legs about hips at (0, 0), trunk 50 px; on some frames left and right
/// are exchanged.
std::vector<BodyPoints> swingingLegs()
{
    std::vector<BodyPoints> bodies(60);
    for (int t = 0; t < 60; ++t) {
        const bool exchanged = std::count(exchangedFrames.begin(), exchangedFrames.end(), t) > 0;
        auto& points = bodies[static_cast<std::size_t>(t)].points;
        for (int side = 0; side < 2; ++side) {
            const double a = 2 * std::acos(-1.0) * t / 20 + std::acos(-1.0) * side;
            const PixelPoint ankle{60 * std::sin(a - 0.6), 120};
            const auto to = static_cast<std::size_t>(side ^ (exchanged ? 1 : 0));
            points[11 + to].at = {0, -50};
            points[25 + to].at = {30 * std::sin(a), 60};
            points[27 + to].at = ankle;
            points[29 + to].at = {ankle.u - 8, ankle.v + 6};
            points[31 + to].at = {ankle.u + 18, ankle.v + 8};
        }
    }
    return bodies;
}

} // namespace

TEST_CASE("exactly the frames with exchanged legs are found", "[propose]")
{
    const auto found = legsSeen(swingingLegs());
    for (int t = 0; t < 60; ++t) {
        CAPTURE(t);
        const bool wanted = std::count(exchangedFrames.begin(), exchangedFrames.end(), t) > 0;
        CHECK(found[static_cast<std::size_t>(t)].feetExchanged == wanted);
        CHECK(found[static_cast<std::size_t>(t)].kneesExchanged == wanted);
    }
}

TEST_CASE("feet or knees exchanged by themselves are found too", "[propose]")
{
    auto bodies = swingingLegs();
    for (const std::size_t left : {27U, 29U, 31U}) { // ankle, heel, toe
        std::swap(bodies[31].points[left], bodies[31].points[left + 1]);
    }
    std::swap(bodies[54].points[25], bodies[54].points[26]);
    const auto found = legsSeen(bodies);
    CHECK(found[31].feetExchanged);
    CHECK_FALSE(found[31].kneesExchanged);
    CHECK(found[54].kneesExchanged);
    CHECK_FALSE(found[54].feetExchanged);
    CHECK_FALSE(found[30].feetExchanged);
}

TEST_CASE("legs far apart are told surely, and legs in one place are not", "[propose]")
{
    auto bodies = swingingLegs();
    CHECK(legsSeen(bodies)[35].sureness > 2.0);
    for (auto& body : bodies) { // both feet seen where the left one is, all the time
        for (const std::size_t left : {25U, 27U, 29U, 31U}) {
            body.points[left + 1] = body.points[left];
        }
    }
    CHECK(legsSeen(bodies)[35].sureness < 0.5);
}

TEST_CASE("legs that are never exchanged stay as they are, and so do two frames alone", "[propose]")
{
    auto bodies = swingingLegs();
    bodies.resize(11); // before the first exchange
    const auto isExchanged = [](const LegsSeen& legs) {
        return legs.feetExchanged || legs.kneesExchanged;
    };
    CHECK(std::ranges::none_of(legsSeen(bodies), isExchanged));
    CHECK(std::ranges::none_of(legsSeen(std::span(bodies).first(2)), isExchanged));
    CHECK(legsSeen({}).empty());
}

TEST_CASE("the trunk is from mid hip to mid shoulder, and never nothing", "[propose]")
{
    CHECK(trunkLength(swingingLegs()) == 50.0);
    CHECK(trunkLength(std::vector<BodyPoints>(3)) == 1.0);
    CHECK(trunkLength({}) == 1.0);
}
