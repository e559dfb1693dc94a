// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/propose/modelled_bodies.hpp"

#include <cmath>

namespace latemile::tests {

namespace {

constexpr double frameRate = 60.0;
constexpr double strideRate = 1.5;
constexpr double pi = 3.14159265358979323846;

/// From the hip, forward and down, pixels; `angle` of the stride.
PixelPoint fromHip(Landmark landmark, double angle)
{
    const double thigh = 0.5 * std::sin(angle);
    const double shank = thigh - 0.5 + 0.5 * std::cos(angle - 0.5);
    const PixelPoint knee{80 * std::sin(thigh), 80 * std::cos(thigh)};
    const PixelPoint ankle{knee.u + 85 * std::sin(shank), knee.v + 85 * std::cos(shank)};
    switch (landmark) {
    case Landmark::Ear:
        return {15, -150};
    case Landmark::Shoulder:
        return {0, -100};
    case Landmark::Elbow:
        return {-20 - 20 * std::sin(angle), -50};
    case Landmark::Wrist:
        return {20 - 20 * std::sin(angle), -40};
    case Landmark::Knee:
        return knee;
    case Landmark::Ankle:
        return ankle;
    case Landmark::Heel:
        return {ankle.u - 14, ankle.v + 10};
    case Landmark::Toe:
        return {ankle.u + 30, ankle.v + 12};
    default:
        return {0, 0};
    }
}

} // namespace

PixelPoint placeOf(const ModelledRunner& runner, int frame, BodySide side, Landmark landmark)
{
    const double angle =
        2 * pi * strideRate * frame / frameRate + (side == BodySide::Far ? pi : 0.0);
    const auto offset = fromHip(landmark, angle);
    return {400 + (runner.facesRight ? offset.u : -offset.u), 300 + offset.v};
}

std::vector<FoundBody> ModelledRunner::bodies() const
{
    std::vector<FoundBody> all;
    for (int k = 0; k < frames; ++k) {
        FoundBody found{.frame = {k}, .time = Seconds{k / frameRate}, .body = {}};
        found.body.presence = 0.99;
        for (const auto landmark : sideViewLandmarks) {
            const auto left = *networkPoint(landmark);
            const auto near = placeOf(*this, k, BodySide::Near, landmark);
            const auto far = placeOf(*this, k, BodySide::Far, landmark);
            found.body.points[left] = {facesRight ? far : near, 0.95};
            found.body.points[left + 1] = {facesRight ? near : far, 0.95};
        }
        found.body.points[0] = {{400 + (facesRight ? 30.0 : -30.0), 150}, 0.95}; // nose
        all.push_back(found);
    }
    return all;
}

} // namespace latemile::tests
