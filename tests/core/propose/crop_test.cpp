// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/crop.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/pictures.hpp"
#include "tests/core/propose/pose_vectors.hpp"

#include <algorithm>
#include <cmath>

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("a crop from two points is centred on the first and turned so that they stand upright",
          "[propose][outside]")
{
    // The numbers by hand: 2 x 1.25 x sqrt(20^2 + 110^2) = 279.5085, atan(20/110) = 0.1798535.
    const auto vector = poseVectors().at("roi_from_two_points");
    const auto point = [&](const char* name) {
        return PixelPoint{vector.at(name).at(0), vector.at(name).at(1)};
    };
    const auto crop = cropRound(point("centre"), point("size_point"));
    const std::vector<double> expected = vector.at("expected_cx_cy_size_angle");
    CHECK(crop.centre == PixelPoint{expected.at(0), expected.at(1)});
    CHECK(crop.size == Approx(expected.at(2)).margin(1e-4));
    CHECK(crop.angle == Approx(expected.at(3)).margin(1e-7));
}

TEST_CASE("a crop round a box is square, a quarter larger, and reaches as far on all sides",
          "[propose]")
{
    const auto crop = cropRound(Box{500, 120, 260, 530});
    CHECK(crop.centre == PixelPoint{630, 385});
    CHECK(crop.size == 662.5); // 1.25 x 530
    CHECK(fromCrop(crop, 0, 0).u == Approx(630 - 331.25));
    CHECK(fromCrop(crop, 256, 256).v == Approx(385 + 331.25));
}

TEST_CASE("between known crops centre, size and angle change evenly with real time", "[propose]")
{
    const CropPath path(
        {{Seconds{1.0}, {{100, 50}, 200, 3.1}}, {Seconds{2.0}, {{200, 70}, 240, -3.1}}});
    const auto crop = path.at(Seconds{1.25});
    CHECK(crop.centre.u == Approx(125));
    CHECK(crop.centre.v == Approx(55));
    CHECK(crop.size == Approx(210));
    // From 3.1 to -3.1 the short way is over pi: 0.0832 rad in all.
    CHECK(crop.angle == Approx(3.1 + 0.25 * (2 * std::acos(-1.0) - 6.2)));
    SECTION("and stay before the first and after the last")
    {
        CHECK(path.at(Seconds{0.0}).centre.u == 100);
        CHECK(path.at(Seconds{9.0}).size == 240);
    }
}

TEST_CASE("outside the picture the network is shown black", "[propose]")
{
    const auto white = painted(64, 64, [](int, int) { return Colour{255, 255, 255}; });
    const auto input = networkInput(white, {{0, 32}, 64, 0}); // its left half lies outside
    const auto at = [&input](std::size_t x, std::size_t y) { return input[y * 256 + x]; };
    CHECK(at(60, 128) == 0.0F);
    CHECK(at(200, 128) == 1.0F);
    SECTION("also where nothing of the crop lies inside, however far it is")
    {
        for (const double far : {500.0, -500.0, 1e12, std::nan("")}) {
            const auto nothing = networkInput(white, {{far, far}, 64, 0.3});
            CHECK(std::all_of(nothing.begin(), nothing.end(), [](float v) { return v == 0.0F; }));
        }
    }
}

TEST_CASE("red, green and blue come in this order, from 0 to 1", "[propose]")
{
    const auto red = painted(32, 32, [](int, int) { return Colour{0, 51, 255}; });
    const auto input = networkInput(red, cropRound(red));
    CHECK(input[128 * 256 + 128] == 1.0F);
    CHECK(input[256 * 256 + 128 * 256 + 128] == Approx(0.2F)); // 51 of 255
    CHECK(input[2 * 256 * 256 + 128 * 256 + 128] == 0.0F);
}
