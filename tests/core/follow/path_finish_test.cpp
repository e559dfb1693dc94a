// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/path_finish.hpp"

#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

constexpr double pixelsPerCm = 3.0;

std::vector<double> evenTimes(std::size_t frames, double rate)
{
    std::vector<double> times;
    for (std::size_t i = 0; i < frames; ++i) {
        times.push_back(static_cast<double>(i) / rate);
    }
    return times;
}

FollowedPath straight(std::size_t frames)
{
    FollowedPath path;
    for (std::size_t i = 0; i < frames; ++i) {
        path.push_back(PathPoint{{2.0 * static_cast<double>(i), 50.0}, 0.25, 0, false, false});
    }
    return path;
}

} // namespace

TEST_CASE("a short hole is bridged, marked as such and less sure than its ends", "[follow]")
{
    auto path = straight(40);
    for (std::size_t i = 15; i < 20; ++i) {
        path[i].reset();
    }
    bridgeGaps(path, evenTimes(40, 120.0), pixelsPerCm);
    REQUIRE(path[17]);
    CHECK(path[17]->isBridged);
    CHECK_FALSE(path[14]->isBridged);
    CHECK(path[17]->at.x == Approx(34.0).margin(0.01));
    CHECK(path[17]->variance > 0.25);
}

TEST_CASE("a long hole stays a hole", "[follow]")
{
    auto path = straight(60);
    for (std::size_t i = 15; i < 35; ++i) { // 21 intervals of 1/120 s
        path[i].reset();
    }
    bridgeGaps(path, evenTimes(60, 120.0), pixelsPerCm);
    CHECK_FALSE(path[20]);
}

TEST_CASE("a shank a quarter too long puts the ankle in doubt by as much", "[follow]")
{
    FigurePaths paths;
    for (int i = 0; i < 30; ++i) {
        paths[placeOf(Landmark::Knee)].push_back(PathPoint{{100, 100}, 0.1, 0, false, false});
        const double length = i == 12 ? 150.0 : 120.0;
        paths[placeOf(Landmark::Ankle)].push_back(
            PathPoint{{100, 100 + length}, 0.1, 0, false, false});
    }
    doubtBrokenBones(paths);
    const auto& ankle = paths[placeOf(Landmark::Ankle)];
    CHECK(ankle[12]->isDoubtful);
    CHECK(ankle[12]->variance == Approx(450.0)); // 30² / 2 axes
    CHECK_FALSE(ankle[13]->isDoubtful);
    CHECK(ankle[13]->variance == Approx(0.1));
}
