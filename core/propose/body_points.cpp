// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/body_points.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace latemile {

namespace {

constexpr int pixelsPerCell = cropPixels / NetworkAnswer::cells;
constexpr int reachInCells = 3;
constexpr double sure = 0.5;
/// The network's own points for where to look next.
constexpr std::size_t centrePoint = 33;
constexpr std::size_t reachPoint = 34;

double sigmoid(double logit)
{
    return 1.0 / (1.0 + std::exp(-logit));
}

PixelPoint middle(PixelPoint a, PixelPoint b)
{
    return {(a.u + b.u) / 2, (a.v + b.v) / 2};
}

} // namespace

std::optional<std::size_t> networkPoint(Landmark landmark)
{
    switch (landmark) {
    case Landmark::Ear:
        return 7;
    case Landmark::Shoulder:
        return 11;
    case Landmark::Elbow:
        return 13;
    case Landmark::Wrist:
        return 15;
    case Landmark::Hip:
        return 23;
    case Landmark::Knee:
        return 25;
    case Landmark::Ankle:
        return 27;
    case Landmark::Heel:
        return 29;
    case Landmark::Toe:
        return 31;
    case Landmark::Asis:
    case Landmark::Psis:
    case Landmark::HeelTop:
        break;
    }
    return std::nullopt;
}

const BodyPoint& BodyPoints::left(Landmark landmark) const
{
    const auto number = networkPoint(landmark);
    assert(number);
    return points[*number];
}

const BodyPoint& BodyPoints::right(Landmark landmark) const
{
    const auto number = networkPoint(landmark);
    assert(number);
    return points[*number + 1];
}

PixelPoint BodyPoints::midHip() const
{
    return middle(left(Landmark::Hip).at, right(Landmark::Hip).at);
}

PixelPoint BodyPoints::midShoulder() const
{
    return middle(left(Landmark::Shoulder).at, right(Landmark::Shoulder).at);
}

double trunkLength(std::span<const BodyPoints> bodies)
{
    std::vector<double> lengths;
    for (const auto& body : bodies) {
        const auto hip = body.midHip();
        const auto shoulder = body.midShoulder();
        lengths.push_back(std::hypot(shoulder.u - hip.u, shoulder.v - hip.v));
    }
    return lengths.empty() ? 1.0 : std::max(upperMedianOf(std::move(lengths)), 1.0);
}

RefinedPoint refined(double x, double y, std::span<const float> heat)
{
    constexpr int cells = NetworkAnswer::cells;
    if (!(x >= 0 && y >= 0 && x < cropPixels && y < cropPixels)) {
        return {x, y, 0.0};
    }
    const int column = static_cast<int>(x / pixelsPerCell);
    const int row = static_cast<int>(y / pixelsPerCell);
    double weights = 0;
    double columns = 0;
    double rows = 0;
    double peak = 0;
    for (int j = std::max(row - reachInCells, 0); j <= std::min(row + reachInCells, cells - 1);
         ++j) {
        for (int i = std::max(column - reachInCells, 0);
             i <= std::min(column + reachInCells, cells - 1); ++i) {
            const double weight = sigmoid(heat[static_cast<std::size_t>(j * cells + i)]);
            weights += weight;
            columns += weight * i;
            rows += weight * j;
            peak = std::max(peak, weight);
        }
    }
    if (peak < sure) {
        return {x, y, peak};
    }
    return {pixelsPerCell * columns / weights, pixelsPerCell * rows / weights, peak};
}

BodyPoints bodyPointsFrom(const NetworkAnswer& answer, const Crop& crop)
{
    constexpr std::size_t mapSize = std::size_t{NetworkAnswer::cells} * NetworkAnswer::cells;
    BodyPoints body;
    body.presence = answer.presence;
    for (std::size_t k = 0; k < body.points.size(); ++k) {
        const auto* values = &answer.landmarks[k * NetworkAnswer::values];
        const auto point =
            refined(values[0], values[1], std::span(answer.heat).subspan(k * mapSize, mapSize));
        body.points[k] = {fromCrop(crop, point.x, point.y), point.peak};
    }
    body.nextCrop = cropRound(body.points[centrePoint].at, body.points[reachPoint].at);
    return body;
}

} // namespace latemile
