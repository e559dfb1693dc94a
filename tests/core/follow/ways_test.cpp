// SPDX-License-Identifier: GPL-3.0-or-later
// Expected numbers by hand: variances of means and differences of independent values (JCGM
// 100:2008, 5.1.2).
#include "core/follow/ways.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

/// Placed marks of one pixel's click error on the first and the last of eleven frames, each carried
/// to the other: `apart` pixels across when it comes there. On the way forwards it drifts for
/// `roughness` times as long.
FigurePaths pathsBetween(std::int64_t lastOrigin, double apart, double roughness = 1.0)
{
    constexpr std::size_t frames = 11;
    std::vector<double> times;
    for (std::size_t i = 0; i < frames; ++i) {
        times.push_back(0.01 * static_cast<double>(i));
    }
    Ways ahead;
    Ways behind;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        ahead[i].resize(frames);
        behind[i].resize(frames);
    }
    const auto knee = placeOf(Landmark::Knee);
    for (std::size_t i = 0; i < frames; ++i) {
        const double drifted = times[i] - times.front();
        ahead[knee][i] = Way{{50.0, 50.0}, times.front(), 0.0, 0, 1.0, roughness * drifted};
        behind[knee][i] =
            Way{{50.0 + apart, 50.0}, times.back(), 0.0, lastOrigin, 1.0, times.back() - times[i]};
    }
    return joinedWays(ahead, behind, {}, times, 3.0);
}

const PathPoint& halfWay(const FigurePaths& paths)
{
    return *paths[placeOf(Landmark::Knee)][5];
}

} // namespace

TEST_CASE("half-way between two placed marks their click errors average", "[follow]")
{
    CHECK(halfWay(pathsBetween(10, 0.0)).clickVariance == Approx(0.5));
    // Carried a whole stride, both ways hang on one click.
    CHECK(halfWay(pathsBetween(0, 0.0)).clickVariance == Approx(1.0));
}

TEST_CASE("what two clicks differ by is no error of following", "[follow]")
{
    // A click of one pixel per axis each: a gap of two pixels in one axis is a mean square of 2 an
    // axis, as two such clicks give.
    const double still = halfWay(pathsBetween(10, 0.0)).variance;
    CHECK(halfWay(pathsBetween(10, 2.0)).variance == Approx(still));
    CHECK(halfWay(pathsBetween(0, 20.0)).variance == Approx(0.25 * 400.0 / 2.0));
}

TEST_CASE("of two ways the one whose points agreed less counts less", "[follow]")
{
    // Variances grow with the power 1.5 of the time: 4^1.5 = 8, so that of nine parts one is its.
    const auto path = pathsBetween(0, 9.0, 4.0);
    CHECK(halfWay(path).at.x == Approx(50.0 + 8.0));
    // Of three pixels a centimetre: a spread of 0.12 cm is usual.
    CHECK(driftTime(0.025, 0.36, 3.0) == Approx(0.025));
    CHECK(driftTime(0.025, 0.72, 3.0) == Approx(0.05));
    CHECK(driftTime(0.025, 0.0, 3.0) > 0.0);
    CHECK(driftTime(0.025, 100.0, 3.0) < 0.2);
}

TEST_CASE("a way that arrives at another placed mark is off by both clicks", "[follow]")
{
    std::vector<Closure> closures;
    std::optional<Way> way = Way{{53.0, 50.0}, 0.0, 0.5, 0, 1.0, 0.4};
    setDown(way, Seed{{50.0, 54.0}, 0.0, 30, true, 4.0}, 0.25, closures);
    REQUIRE(closures.size() == 1);
    CHECK(closures.front().known == Approx(0.5 + 1.0 + 4.0));
    CHECK(closures.front().squared == Approx(25.0 / 2.0 - 5.5));
    CHECK(closures.front().duration == Approx(0.4));
    // And at one that hangs on the same click by its own following alone.
    way = Way{{53.0, 50.0}, 0.0, 0.5, 30, 4.0};
    setDown(way, Seed{{50.0, 54.0}, 0.2, 30, false, 4.0}, 0.25, closures);
    CHECK(closures.back().known == Approx(0.7));
}
