// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/rigid_move.hpp"

#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

const std::vector<cv::Point2d> spots{{10, 20}, {30, 18}, {55, 40}, {12, 60},
                                     {33, 71}, {48, 22}, {26, 45}, {60, 66}};

std::vector<cv::Point2d> turnedAndShifted(double radians, cv::Point2d by)
{
    std::vector<cv::Point2d> moved;
    for (const auto& p : spots) {
        moved.emplace_back(std::cos(radians) * p.x - std::sin(radians) * p.y + by.x,
                           std::sin(radians) * p.x + std::cos(radians) * p.y + by.y);
    }
    return moved;
}

} // namespace

TEST_CASE("a turn and a shift are found exactly", "[follow]")
{
    // Plane geometry: the points are moved by the rotation matrix itself.
    const auto after = turnedAndShifted(0.3, {7.0, -4.0});
    const auto move = rigidMoveBetween(spots, after);
    REQUIRE(move);
    CHECK(move->turn == Approx(0.3).margin(1e-9));
    for (std::size_t i = 0; i < spots.size(); ++i) {
        CHECK(cv::norm(move->carried(spots[i]) - after[i]) < 1e-9);
    }
    CHECK(move->agreeing == Approx(1.0));
}

TEST_CASE("points that stay behind do not hold the others back", "[follow]")
{
    // Three of eight lie on a still background.
    auto after = turnedAndShifted(-0.1, {12.0, 3.0});
    for (const std::size_t i : {1U, 4U, 6U}) {
        after[i] = spots[i];
    }
    const auto move = rigidMoveBetween(spots, after);
    REQUIRE(move);
    CHECK(move->turn == Approx(-0.1).margin(0.002));
    CHECK(cv::norm(move->carried(spots[0]) - after[0]) < 0.1);
    CHECK(move->agreeing == Approx(5.0 / 8.0));
}

TEST_CASE("two points are too few to tell a move from noise", "[follow]")
{
    CHECK_FALSE(rigidMoveBetween({{0, 0}, {1, 0}}, {{0, 1}, {1, 1}}));
}
