// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/peak_fit.hpp"

#include "tests/catch.hpp"

#include <cmath>
#include <random>

using namespace latemile;

namespace {

/// A bounce of 5 cm amplitude and 0.35 s period, read `rate` times a second for 0.7 s.
std::vector<Sample> bounce(double rate, double noise = 0.0, unsigned seed = 1)
{
    std::mt19937 random(seed);
    std::normal_distribution<double> error(0.0, 1.0);
    std::vector<Sample> samples;
    for (int i = 0; i / rate <= 0.7; ++i) {
        const double t = i / rate;
        samples.push_back({t, 5.0 * std::sin(2.0 * M_PI * t / 0.35) + noise * error(random)});
    }
    return samples;
}

} // namespace

TEST_CASE("the fitted peak of noisy samples does not overshoot as the raw maximum does",
          "[measures]")
{
    double raw = 0.0;
    double fitted = 0.0;
    constexpr int draws = 200;
    for (unsigned seed = 0; seed < draws; ++seed) {
        const auto samples = bounce(240.0, 0.3, seed);
        double highest = samples.front().value;
        for (const auto& s : samples) {
            highest = s.time < 0.35 ? std::max(highest, s.value) : highest;
        }
        raw += highest / draws;
        fitted += peakOf(samples, 0.0, 0.35, Extreme::Highest)->vertex.value / draws;
    }
    CHECK(raw > 5.25); // half of the +0.8 cm that max - min gains
    CHECK(std::abs(fitted - 5.0) < 0.12);
}

TEST_CASE("a peak needs five samples within 70 ms", "[measures]")
{
    CHECK(peakOf(bounce(60.0), 0.0, 0.35, Extreme::Highest));
    CHECK_FALSE(peakOf(bounce(30.0), 0.0, 0.35, Extreme::Highest));
}

TEST_CASE("the vertex stays inside the stretch asked for", "[measures]")
{
    const auto peak = peakOf(bounce(240.0), 0.0, 0.05, Extreme::Highest);
    REQUIRE(peak);
    CHECK(peak->vertex.time <= 0.05);
    CHECK(peak->vertex.time >= 0.0);
}

TEST_CASE("the vertex of noisy samples is as high as the true one on average",
          "[measures][property]")
{
    // A hip off by 1.2 cm a frame: the highest sample stands where the noise is highest, and a
    // parabola around it lay 0.25 cm too high on average, four tenths of its own error. Looked for
    // among smoothed samples, and less what a noisy vertex exceeds the true one by, a tenth is left
    // of it. 1 500 draws: the mean is known to 0.016 cm.
    double sum = 0.0;
    int inside = 0;
    constexpr int draws = 1500;
    for (unsigned seed = 0; seed < draws; ++seed) {
        const auto peak = peakOf(bounce(120.0, 1.2, seed), 0.0, 0.35, Extreme::Highest);
        REQUIRE(peak);
        double squares = 0.0;
        for (const double weight : peak->weights) {
            squares += weight * weight;
        }
        const double error = peak->vertex.value - 5.0;
        sum += error / draws;
        inside += std::abs(error) < 1.96 * 1.2 * std::sqrt(squares) ? 1 : 0;
    }
    CHECK(std::abs(sum) < 0.12);
    CHECK(inside > 0.93 * draws);
    CHECK(inside < 0.98 * draws);
}

TEST_CASE("the weights of a peak's samples tell how its vertex moves", "[measures]")
{
    std::vector<Sample> samples; // of a parabola, so that the fit leaves nothing
    for (int i = 0; i < 42; ++i) {
        const double t = i / 120.0;
        samples.push_back({t, 5.0 - 400.0 * (t - 0.17) * (t - 0.17)});
    }
    const auto plain = peakOf(samples, 0.0, 0.35, Extreme::Highest);
    REQUIRE(plain);
    double whole = 0.0;
    for (auto i = plain->first; i < plain->last; ++i) {
        auto moved = samples;
        moved[i].value += 1e-5;
        const auto now = peakOf(moved, 0.0, 0.35, Extreme::Highest);
        const double weight = plain->weights[i - plain->first];
        CHECK((now->vertex.value - plain->vertex.value) / 1e-5 == Approx(weight).margin(0.02));
        whole += weight;
    }
    CHECK(whole == Approx(1.0));
}

TEST_CASE("the higher of two peaks that are alike is not taken for higher than it is",
          "[measures][outside]")
{
    // The greater of two independent normal values of one mean lies 1/sqrt(pi) = 0.564 standard
    // errors above it (Clark 1961, Operations Research 9:145, with both variances and means equal).
    // Two peaks of 5 cm are marked with an error of 0.6 cm a frame; chosen among smoothed samples,
    // the higher one's fit would lie 0.18 cm too high on average (2 000 draws know it to 0.01 cm).
    double ofOne = 0.0;
    double ofTwo = 0.0;
    constexpr int draws = 2000;
    for (unsigned seed = 0; seed < draws; ++seed) {
        const auto samples = bounce(120.0, 0.6, seed);
        ofOne += peakOf(samples, 0.0, 0.30, Extreme::Highest)->vertex.value / draws;
        ofTwo += peakOf(samples, 0.0, 0.65, Extreme::Highest)->vertex.value / draws;
    }
    CAPTURE(ofOne, ofTwo);
    CHECK(std::abs(ofOne - 5.0) < 0.05);
    CHECK(std::abs(ofTwo - 5.0) < 0.10);
}

TEST_CASE("a peak that stands out loses nothing to a lower one", "[measures]")
{
    std::vector<Sample> samples;
    for (int i = 0; i <= 84; ++i) {
        const double t = i / 120.0;
        const double height = t < 0.35 ? 5.0 : 3.0;
        samples.push_back({t, height * std::sin(2.0 * M_PI * t / 0.35)});
    }
    const auto alone = peakOf(samples, 0.0, 0.30, Extreme::Highest);
    const auto both = peakOf(samples, 0.0, 0.65, Extreme::Highest);
    REQUIRE(alone);
    REQUIRE(both);
    CHECK(both->vertex.value == Approx(alone->vertex.value).margin(1e-6));
}
