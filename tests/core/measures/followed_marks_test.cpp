// SPDX-License-Identifier: GPL-3.0-or-later
// Marks that come from one followed path share part of their error.
#include "core/measures/propagation.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <cmath>
#include <numeric>
#include <random>

using namespace latemile;
using namespace latemile::testing;

namespace {

constexpr std::int64_t contactFrame = 50;
constexpr std::int64_t middleFrame = 113;
constexpr double sigma = 3.0; // px

/// The worked example with the hip carried from contact to mid-stance; `corrected` was set by hand
/// again.
MarkedClip carriedHip(std::optional<std::int64_t> corrected = std::nullopt)
{
    auto clip = exampleClip();
    for (auto frame = contactFrame; frame <= middleFrame; ++frame) {
        const double share = static_cast<double>(frame - contactFrame) /
                             static_cast<double>(middleFrame - contactFrame);
        const auto origin = frame == corrected ? Origin::Placed : Origin::Followed;
        clip.marking.marks[{{frame}, BodySide::Near, Landmark::Hip}] = {
            {960.0, 780.0 + 8.0 * share}, origin, sigma};
    }
    return clip;
}

double hipDropError(const MarkedClip& clip)
{
    const auto* measure = findMeasure("hip_drop");
    return std::sqrt(propagate(*prepare(clip), *measure, measure->formula, 0).shares.marks);
}

} // namespace

TEST_CASE("a difference of two marks on one path is surer than of two placed ones",
          "[measures][property]")
{
    // Var(a - b) = 2 s^2 (1 - r): JCGM 100:2008, 5.2.2. 0.4 cm a pixel; r = 1 / 1.5^2 = 0.444.
    const double apart = 0.4 * sigma * std::sqrt(2.0);
    CHECK(hipDropError(carriedHip()) == Approx(apart * std::sqrt(1.0 - 1.0 / 2.25)));
    CHECK(hipDropError(carriedHip(80)) == Approx(apart)); // a hand between them: two paths
}

TEST_CASE("noise that marks of a path share scatters readings by the stated error",
          "[measures][property]")
{
    // 4 000 draws of the model itself: one error a path, one a mark; 5 % are three standard
    // deviations of a simulated SD.
    const auto clip = carriedHip();
    const auto* measure = findMeasure("hip_drop");
    std::mt19937 random(3);
    std::normal_distribution<double> unit;
    double sum = 0.0;
    double squares = 0.0;
    constexpr int draws = 4000;
    for (int i = 0; i < draws; ++i) {
        auto drawn = clip;
        const double shared = unit(random) * sigma / 1.5;
        for (auto& [key, mark] : drawn.marking.marks) {
            if (key.landmark == Landmark::Hip && mark.origin == Origin::Followed) {
                mark.at.v += shared + unit(random) * sigma * std::sqrt(1.0 - 1.0 / 2.25);
            }
        }
        const auto prepared = *prepare(drawn);
        Evidence evidence(prepared, 0);
        const double value = measure->formula(evidence);
        sum += value;
        squares += value * value;
    }
    const double mean = sum / draws;
    CHECK(hipDropError(clip) == Approx(std::sqrt(squares / draws - mean * mean)).epsilon(0.05));
}

TEST_CASE("the mean of a path's marks is less sure than of as many placed ones", "[measures]")
{
    // By hand: four independent 1/4; four on one path (4 + 12 r) / 16; two paths of two
    // (4 + 4 r) / 16, r = 4/9.
    CHECK(varianceOfMean({-1, -1, -1, -1}) == Approx(0.25));
    CHECK(varianceOfMean({7, 7, 7, 7}) == Approx((4.0 + 12.0 * 4.0 / 9.0) / 16.0));
    CHECK(varianceOfMean({1, 2, 1, 2}) == Approx((4.0 + 4.0 * 4.0 / 9.0) / 16.0));
}

TEST_CASE("the parts of a reading's error add up", "[measures]")
{
    const auto prepared = *prepare(carriedHip());
    for (const auto& measure : measureTable()) {
        if (!measure.formula) {
            continue;
        }
        INFO(measure.id);
        const auto got = propagate(prepared, measure, measure.formula, 0);
        if (got.value) {
            const auto& d = got.detail;
            const double marks = std::accumulate(d.landmarks.begin(), d.landmarks.end(), 0.0);
            CHECK(marks + d.flatFoot + d.trunk == Approx(got.shares.marks));
            const double shared = got.common.events * got.common.events;
            CHECK(d.contacts + d.toeOffs + d.readLate + d.readMidway + shared ==
                  Approx(got.shares.events));
            CHECK(got.standardError() == Approx(std::sqrt(got.shares.sum())));
        }
    }
}
