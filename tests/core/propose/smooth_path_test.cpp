// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/smooth_path.hpp"
#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

/// A parabola in u, a line in v, at uneven times as a phone drops frames.
std::vector<PathSample> thrown()
{
    std::vector<PathSample> samples;
    for (int k = 0; k < 40; ++k) {
        const double t = k / 120.0 + (k % 3 == 0 ? 0.002 : 0.0);
        samples.push_back({Seconds{t}, {100 + 300 * t - 900 * t * t, 50 + 80 * t}});
    }
    return samples;
}

} // namespace

TEST_CASE("a parabola comes out of the smoothing as it went in, whatever the frame times",
          "[propose]")
{
    const auto samples = thrown();
    const auto path = smoothed(samples);
    REQUIRE(path.size() == samples.size());
    for (std::size_t k = 0; k < path.size(); ++k) {
        CHECK(path[k].u == Approx(samples[k].at.u).margin(1e-6));
        CHECK(path[k].v == Approx(samples[k].at.v).margin(1e-6));
    }
}

TEST_CASE("one wild sample neither moves its neighbours nor stays", "[propose]")
{
    auto samples = thrown();
    const auto true20 = samples[20].at;
    samples[20].at.v += 80;
    samples[20].weight = 0.01; // faint, as wild ones are
    const auto path = smoothed(samples);
    CHECK(path[20].v == Approx(true20.v).margin(1.0));
    CHECK(path[19].v == Approx(samples[19].at.v).margin(0.5));
    CHECK(path[22].v == Approx(samples[22].at.v).margin(0.5));
}

TEST_CASE("the error of noisy samples shrinks as a parabola over seven of them lets it",
          "[propose]")
{
    auto samples = thrown();
    double before = 0;
    double after = 0;
    unsigned state = 1;
    std::vector<double> noise;
    for (auto& sample : samples) {
        state = state * 1664525U + 1013904223U; // Numerical Recipes' linear congruence
        noise.push_back((state >> 8U) / 8388608.0 - 1.0);
        sample.at.v += noise.back();
    }
    const auto path = smoothed(samples);
    for (std::size_t k = 5; k + 5 < path.size(); ++k) {
        before += noise[k] * noise[k];
        const double off = path[k].v - (50 + 80 * samples[k].time.count());
        after += off * off;
    }
    // A parabola through seven even samples leaves 1/3 of the variance, through five 17/35
    // (Savitzky & Golay 1964); nearness weights lie between.
    CHECK(after < 0.7 * before);
    CHECK(after > 0.25 * before);
}

TEST_CASE("where frames are too far apart for a parabola they stay as they are", "[propose]")
{
    std::vector<PathSample> samples;
    for (int k = 0; k < 10; ++k) {
        samples.push_back({Seconds{k / 30.0}, {k % 2 == 0 ? 0.0 : 9.0, 5.0 * k}});
    }
    const auto path = smoothed(samples);
    for (std::size_t k = 0; k < path.size(); ++k) {
        CHECK(path[k] == samples[k].at);
    }
    CHECK(smoothed({}).empty());
}
