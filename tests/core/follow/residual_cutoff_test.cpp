// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/low_pass.hpp"
#include "core/follow/residual_cutoff.hpp"

#include "tests/catch.hpp"

#include <cmath>
#include <numbers>
#include <random>

using namespace latemile;

namespace {

constexpr double rate = 240.0;

/// A movement of 1.5 and 3 Hz, as a running ankle's, with normal noise.
std::vector<double> movement(double noise)
{
    std::mt19937 random(3);
    std::normal_distribution<double> normal;
    std::vector<double> samples;
    for (int i = 0; i < 480; ++i) {
        const double t = i / rate;
        samples.push_back(40.0 * std::sin(2.0 * std::numbers::pi * 1.5 * t) +
                          10.0 * std::cos(2.0 * std::numbers::pi * 3.0 * t) +
                          noise * normal(random));
    }
    return samples;
}

double rootMeanSquare(const std::vector<double>& a, const std::vector<double>& b)
{
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum += (a[i] - b[i]) * (a[i] - b[i]);
    }
    return std::sqrt(sum / static_cast<double>(a.size()));
}

} // namespace

TEST_CASE("noisier marks are smoothed at a lower frequency", "[follow]")
{
    const double quiet = residualCutoff(movement(0.05), rate);
    const double noisy = residualCutoff(movement(2.0), rate);
    CHECK(noisy < quiet);
    CHECK(noisy >= 6.0);
    CHECK(quiet <= 0.25 * rate);
}

TEST_CASE("smoothing brings noisy marks nearer to the movement and delays nothing", "[follow]")
{
    const auto clean = movement(0.0);
    const auto noisy = movement(1.0);
    const auto smooth = zeroLag(noisy, rate, residualCutoff(noisy, rate));
    CHECK(rootMeanSquare(smooth, clean) < 0.5 * rootMeanSquare(noisy, clean));
    // A delay of one frame would leave the movement's own speed times 1/240 s: 2.0 root mean
    // square.
    CHECK(rootMeanSquare(smooth, clean) < 0.5);
}

TEST_CASE("too few samples to tell noise by are hardly smoothed", "[follow]")
{
    CHECK(residualCutoff(std::vector<double>(12, 1.0), rate) == Approx(60.0));
    CHECK(zeroLag({1, 5, 2}, rate, 8.0) == std::vector<double>{1, 5, 2});
}
