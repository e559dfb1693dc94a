// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/pose_network.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/pictures.hpp"
#include "tests/core/propose/pose_vectors.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

#include <cmath>
#include <numeric>

using namespace latemile;
using namespace latemile::tests;

namespace {

std::vector<float> formulaInput()
{
    std::vector<float> input;
    for (int c = 0; c < 3; ++c) {
        for (int y = 0; y < cropPixels; ++y) {
            for (int x = 0; x < cropPixels; ++x) {
                input.push_back(static_cast<float>(0.5 + 0.25 * std::sin(0.05 * x + 0.9 * c) +
                                                   0.25 * std::cos(0.083 * y - 0.4 * c)));
            }
        }
    }
    return input;
}

Picture formulaPicture()
{
    return painted(640, 360, [](int x, int y) {
        Colour colour{};
        for (int k = 0; k < 3; ++k) {
            colour[static_cast<std::size_t>(k)] = static_cast<std::uint8_t>(std::lround(
                127 + 60 * std::sin(0.03 * x + k) + 60 * std::cos(0.041 * y - 0.5 * k)));
        }
        return colour;
    });
}

const Crop formulaCrop{{300, 170}, 250, 0.2};

} // namespace

TEST_CASE("the network built from the file answers as an independent forward pass does",
          "[propose][outside]")
{
    auto network = PoseNetwork::open(resources());
    REQUIRE(network);
    const auto expected = poseVectors().at("net").at("heavy");
    const auto answer = network->answer(formulaInput());
    REQUIRE(answer);
    REQUIRE(answer->landmarks.size() == 195);
    for (std::size_t k = 0; k < 10; ++k) {
        CAPTURE(k);
        CHECK(answer->landmarks[k] ==
              Approx(expected.at("landmarks_0_to_9").at(k).get<double>()).margin(0.01));
    }
    for (std::size_t k = 0; k < 5; ++k) {
        CAPTURE(k);
        CHECK(answer->landmarks[27 * 5 + k] ==
              Approx(expected.at("landmark_27_x_y_z_visibility_presence").at(k).get<double>())
                  .margin(0.01));
    }
    CHECK(std::accumulate(answer->landmarks.begin(), answer->landmarks.end(), 0.0) ==
          Approx(expected.at("landmarks_sum_of_195").get<double>()).margin(0.2));
    CHECK(answer->presence == Approx(expected.at("presence").get<double>()).margin(1e-4));
    const auto heat = [&answer](std::size_t k, std::size_t y, std::size_t x) {
        return answer->heat[(k * 64 + y) * 64 + x];
    };
    CHECK(heat(0, 0, 0) == Approx(expected.at("heatmap_k0_y0_x0").get<double>()).margin(0.005));
    CHECK(heat(27, 32, 32) ==
          Approx(expected.at("heatmap_k27_y32_x32").get<double>()).margin(0.005));
    CHECK(heat(31, 40, 20) ==
          Approx(expected.at("heatmap_k31_y40_x20").get<double>()).margin(0.005));

    SECTION("and in a turned crop of a picture its points come back to the picture's pixels")
    {
        const auto wanted = poseVectors().at("crop").at("heavy");
        const auto body = network->find(formulaPicture(), formulaCrop);
        REQUIRE(body);
        for (const auto& [number, place] : wanted.at("points_image_px").items()) {
            CAPTURE(number);
            const auto& at = body->points[std::stoul(number)].at;
            CHECK(at.u == Approx(place.at(0).get<double>()).margin(0.2));
            CHECK(at.v == Approx(place.at(1).get<double>()).margin(0.2));
        }
        CHECK(body->presence == Approx(wanted.at("score").get<double>()).margin(1e-3));
        const auto& next = wanted.at("next_roi");
        CHECK(body->nextCrop.centre.u == Approx(next.at(0).get<double>()).margin(0.2));
        CHECK(body->nextCrop.centre.v == Approx(next.at(1).get<double>()).margin(0.2));
        CHECK(body->nextCrop.size == Approx(next.at(2).get<double>()).margin(0.5));
        CHECK(body->nextCrop.angle == Approx(next.at(3).get<double>()).margin(0.003));
    }
}

TEST_CASE("a turned crop reads the pixels another program read", "[propose][outside]")
{
    const auto pixels = croppedPixels(formulaPicture(), formulaCrop);
    const auto document = poseVectors();
    for (const auto& row : document.at("crop").at("pixels_y_x_bgr")) {
        const auto at = (row.at(0).get<std::size_t>() * 256 + row.at(1).get<std::size_t>()) * 3;
        for (std::size_t k = 0; k < 3; ++k) {
            CAPTURE(row.dump(), k);
            CHECK(std::abs(pixels[at + k] - row.at(2 + k).get<int>()) <= 1);
        }
    }
}

TEST_CASE("a heat map moves the regressed point to the weighted mean round it",
          "[propose][outside]")
{
    std::vector<float> heat;
    for (int y = 0; y < 64; ++y) {
        for (int x = 0; x < 64; ++x) {
            heat.push_back(
                static_cast<float>(4 - (std::pow(x - 30.3, 2) + std::pow(y - 21.8, 2)) / 3));
        }
    }
    const auto wanted = poseVectors().at("refine");
    const auto& start = wanted.at("regressed_crop_px");
    const auto point = refined(start.at(0), start.at(1), heat);
    CHECK(point.x == Approx(wanted.at("expected_crop_px").at(0).get<double>()).margin(1e-4));
    CHECK(point.y == Approx(wanted.at("expected_crop_px").at(1).get<double>()).margin(1e-4));
    CHECK(point.peak == Approx(wanted.at("peak").get<double>()).margin(1e-4));
}

TEST_CASE("a point outside the crop, or one no heat map is sure of, stays where it was regressed",
          "[propose]")
{
    const std::vector<float> cold(64 * 64, -1.0F); // sigmoid(-1) = 0.27
    const auto inside = refined(100.0, 50.0, cold);
    CHECK(inside.x == 100.0);
    CHECK(inside.y == 50.0);
    CHECK(inside.peak == Approx(0.268941).margin(1e-5));
    const auto outside = refined(-3.0, 50.0, cold);
    CHECK(outside.x == -3.0);
    CHECK(outside.peak == 0.0);
    CHECK(refined(std::nan(""), 50.0, cold).peak == 0.0);
}
