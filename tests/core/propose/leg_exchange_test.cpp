// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/leg_exchange.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/belt_runner.hpp"
#include "tests/core/propose/pose_vectors.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

using namespace latemile;
using namespace latemile::tests;

namespace {

std::vector<int> exchangedFrames()
{
    return poseVectors().at("leg_exchange").at("expected_exchanged_frames");
}

/// At 60 frames a second.
std::vector<LegsSeen> seen(std::span<const BodyPoints> bodies)
{
    std::vector<Seconds> times;
    for (std::size_t k = 0; k < bodies.size(); ++k) {
        times.push_back(Seconds{static_cast<double>(k) / 60});
    }
    return legsSeen(bodies, times);
}

/// 60 frames of two swinging legs about hips at (0, 0), trunk 50 px; on some frames left and right
/// are exchanged: the clip of the vector "leg_exchange".
std::vector<BodyPoints> swingingLegs()
{
    const auto exchangedOn = exchangedFrames();
    std::vector<BodyPoints> bodies(60);
    for (int t = 0; t < 60; ++t) {
        const bool exchanged = std::ranges::count(exchangedOn, t) > 0;
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

/// Left and right are taken for each other up to frame 13, frames 14 to 16 are behind a post.
BeltRunner exchangedBeforePost()
{
    BeltRunner runner(130);
    for (std::size_t frame = 0; frame < 14; ++frame) {
        runner.exchangeLegs(frame);
    }
    for (const std::size_t frame : {14U, 15U, 16U}) {
        runner.mergeLegs(frame);
    }
    return runner;
}

} // namespace

TEST_CASE("exactly the frames with exchanged legs are found", "[propose][outside]")
{
    const auto exchangedOn = exchangedFrames();
    REQUIRE(exchangedOn.size() == 4);
    const auto found = seen(swingingLegs());
    for (int t = 0; t < 60; ++t) {
        CAPTURE(t);
        const bool wanted = std::ranges::count(exchangedOn, t) > 0;
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
    const auto found = seen(bodies);
    CHECK(found[31].feetExchanged);
    CHECK_FALSE(found[31].kneesExchanged);
    CHECK(found[54].kneesExchanged);
    CHECK_FALSE(found[54].feetExchanged);
    CHECK_FALSE(found[30].feetExchanged);
}

TEST_CASE("legs far apart are told surely, and legs in one place are not", "[propose]")
{
    auto bodies = swingingLegs();
    CHECK(seen(bodies)[35].sureness > 2.0);
    for (auto& body : bodies) { // both feet seen where the left one is, all the time
        for (const std::size_t left : {25U, 27U, 29U, 31U}) {
            body.points[left + 1] = body.points[left];
        }
    }
    CHECK(seen(bodies)[35].sureness < 0.5);
}

TEST_CASE("legs that are never exchanged stay as they are, and so do two frames alone", "[propose]")
{
    auto bodies = swingingLegs();
    bodies.resize(11); // before the first exchange
    const auto isExchanged = [](const LegsSeen& legs) {
        return legs.feetExchanged || legs.kneesExchanged;
    };
    CHECK(std::ranges::none_of(seen(bodies), isExchanged));
    CHECK(std::ranges::none_of(seen(std::span(bodies).first(2)), isExchanged));
    CHECK(seen({}).empty());
}

TEST_CASE("a stance that goes on behind a post tells the leg before the post", "[propose]")
{
    // The clip begins with a stance, the legs taken for each other, until a post hides them: how
    // the legs move says nothing across it, and as they are the shanks are as long.
    auto runner = exchangedBeforePost();
    runner.bodies.erase(runner.bodies.begin(), runner.bodies.begin() + 6);
    runner.times.erase(runner.times.begin(), runner.times.begin() + 6);
    const auto found = legsSeen(runner.bodies, runner.times);
    for (std::size_t k = 0; k < found.size(); ++k) {
        if (k < 8 || k > 10) {
            CAPTURE(k);
            CHECK(found[k].feetExchanged == (k < 8));
            CHECK(found[k].kneesExchanged == (k < 8));
        }
    }
}

TEST_CASE("legs that only the belt tells stay in doubt", "[propose]")
{
    const auto runner = exchangedBeforePost();
    const auto found = legsSeen(runner.bodies, runner.times);
    CHECK(found[10].feetExchanged);
    CHECK(found[10].sureness < 2.0);
    CHECK(found[60].sureness > 2.0);
}

TEST_CASE("who stands before she runs has her legs told as who runs at once", "[propose]")
{
    BeltRunner runner(260);
    runner.standBefore(300);
    for (const auto& legs : legsSeen(runner.bodies, runner.times)) {
        CHECK_FALSE(legs.feetExchanged);
    }
}
