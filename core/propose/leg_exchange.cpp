// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/leg_exchange.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr std::array legPoints{Landmark::Knee, Landmark::Ankle, Landmark::Heel, Landmark::Toe};
constexpr double mostOfOnePoint = 0.6; ///< beyond, a point is plainly wrong and says no more
constexpr double shareOfVelocity = 0.25;
constexpr double costOfExchange = 0.2; ///< 0.05 to 0.8 gave the same answers within a frame

struct Offset {
    double u{};
    double v{};
};
/// Both legs' points from the middle of the hips, in trunk lengths; left first.
using Legs = std::array<Offset, 2 * legPoints.size()>;

/// One frame: as given, and exchanged.
using LegsBothWays = std::array<Legs, 2>;

LegsBothWays legsOf(const BodyPoints& body, double trunk)
{
    LegsBothWays legs;
    const auto hip = body.midHip();
    const auto offset = [&](PixelPoint at) {
        return Offset{(at.u - hip.u) / trunk, (at.v - hip.v) / trunk};
    };
    for (std::size_t k = 0; k < legPoints.size(); ++k) {
        const auto left = offset(body.left(legPoints[k]).at);
        const auto right = offset(body.right(legPoints[k]).at);
        legs[0][2 * k] = legs[1][2 * k + 1] = left;
        legs[0][2 * k + 1] = legs[1][2 * k] = right;
    }
    return legs;
}

double costOf(const Legs& before, const Legs& last, const Legs& now)
{
    double cost = 0;
    for (std::size_t k = 0; k < now.size(); ++k) {
        const double acceleration = std::hypot(before[k].u - 2 * last[k].u + now[k].u,
                                               before[k].v - 2 * last[k].v + now[k].v);
        const double velocity = std::hypot(now[k].u - last[k].u, now[k].v - last[k].v);
        cost += std::min(acceleration, mostOfOnePoint) +
                shareOfVelocity * std::min(velocity, mostOfOnePoint);
    }
    return cost;
}

/// A pair of states, of the frame before and of this one: 2 * before + now, 1 is exchanged.
using Costs = std::array<double, 4>;

} // namespace

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

std::vector<bool> exchangedLegs(std::span<const BodyPoints> bodies)
{
    const std::size_t count = bodies.size();
    std::vector<bool> exchanged(count, false);
    if (count < 3) {
        return exchanged;
    }
    const double trunk = trunkLength(bodies);
    std::vector<LegsBothWays> legs;
    for (const auto& body : bodies) {
        legs.push_back(legsOf(body, trunk));
    }
    Costs costs{0, costOfExchange, costOfExchange, 2 * costOfExchange};
    std::vector<std::array<unsigned, 4>> cameFrom(count);
    for (std::size_t t = 2; t < count; ++t) {
        Costs next{};
        for (unsigned pair = 0; pair < 4; ++pair) {
            const unsigned last = pair >> 1U;
            const unsigned now = pair & 1U;
            const auto through = [&](unsigned before) {
                return costs[2 * before + last] +
                       costOf(legs[t - 2][before], legs[t - 1][last], legs[t][now]);
            };
            const double given = through(0);
            const double other = through(1);
            cameFrom[t][pair] = other < given ? 1 : 0;
            next[pair] = std::min(given, other) + costOfExchange * now;
        }
        costs = next;
    }
    auto pair = static_cast<unsigned>(std::min_element(costs.begin(), costs.end()) - costs.begin());
    exchanged[count - 1] = (pair & 1U) != 0;
    exchanged[count - 2] = (pair >> 1U) != 0;
    for (std::size_t t = count - 1; t >= 2; --t) {
        const unsigned before = cameFrom[t][pair];
        exchanged[t - 2] = before != 0;
        pair = 2 * before + (pair >> 1U);
    }
    return exchanged;
}

} // namespace latemile
