// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/propose/belt_runner.hpp"

#include <cmath>

namespace latemile::tests {

namespace {

constexpr double frameRate = 120.0;
constexpr double stride = 0.72; ///< s
constexpr double stance = 0.30;
constexpr double firstStance = 0.05;
constexpr double beltSpeed = 400.0; ///< px/s
constexpr double pi = 3.14159265358979323846;
constexpr std::array legPoints{Landmark::Knee, Landmark::Ankle, Landmark::Heel, Landmark::Toe};

/// Since the foot landed, s; less than a stride.
double phaseOf(std::size_t frame, bool isLeft)
{
    const double since =
        static_cast<double>(frame) / frameRate - firstStance - (isLeft ? 0.0 : stride / 2);
    return since - stride * std::floor(since / stride);
}

PixelPoint ankleAt(std::size_t frame, bool isLeft)
{
    const double phase = phaseOf(frame, isLeft);
    const double reach = beltSpeed * stance / 2; // before and behind the hips
    if (phase < stance) {
        return {beltSpeed * phase - reach, 170};
    }
    const double swung = (phase - stance) / (stride - stance);
    return {reach * std::cos(pi * swung), 170 - 60 * std::sin(pi * swung)};
}

} // namespace

bool stands(std::size_t frame, bool isLeft)
{
    return phaseOf(frame, isLeft) < stance;
}

BeltRunner::BeltRunner(std::size_t frames)
{
    for (std::size_t k = 0; k < frames; ++k) {
        BodyPoints body;
        for (const bool isLeft : {true, false}) {
            const auto point = [&](Landmark landmark) -> BodyPoint& {
                return body.points[*networkPoint(landmark) + (isLeft ? 0U : 1U)];
            };
            const auto ankle = ankleAt(k, isLeft);
            point(Landmark::Shoulder).at = {0, -100};
            point(Landmark::Knee).at = {ankle.u / 2 - 20, ankle.v / 2};
            point(Landmark::Ankle).at = ankle;
            point(Landmark::Heel).at = {ankle.u + 8, ankle.v + 8};
            point(Landmark::Toe).at = {ankle.u - 25, ankle.v + 12};
        }
        bodies.push_back(body);
        times.push_back(Seconds{static_cast<double>(k) / frameRate});
    }
}

void BeltRunner::standBefore(std::size_t frames)
{
    bodies.insert(bodies.begin(), frames, bodies.front());
    for (std::size_t k = 0; k < frames; ++k) {
        times.push_back(Seconds{static_cast<double>(times.size()) / frameRate});
    }
}

void BeltRunner::exchangeLegs(std::size_t frame)
{
    for (const auto landmark : legPoints) {
        const auto left = *networkPoint(landmark);
        std::swap(bodies[frame].points[left], bodies[frame].points[left + 1]);
    }
}

void BeltRunner::mergeLegs(std::size_t frame)
{
    for (const auto landmark : legPoints) {
        const auto left = *networkPoint(landmark);
        auto& a = bodies[frame].points[left].at;
        auto& b = bodies[frame].points[left + 1].at;
        a = b = {(a.u + b.u) / 2, (a.v + b.v) / 2};
    }
}

} // namespace latemile::tests
