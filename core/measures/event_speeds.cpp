// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/event_speeds.hpp"

#include "core/measures/propagation.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace latemile {

namespace {

using Kind = std::optional<EventSpeed> Propagated::*;

/// Nothing where fewer than two steps have a speed. One mark gone astray beside an event says
/// nothing of the other steps: a speed counts for three times the usual one at most (a choice of
/// this project).
std::optional<double> meanSquare(std::span<Propagated* const> steps, Kind kind)
{
    std::vector<EventSpeed> speeds;
    for (const Propagated* step : steps) {
        if (const auto& speed = step->*kind) {
            speeds.push_back(*speed);
        }
    }
    if (speeds.size() < 2) {
        return std::nullopt;
    }
    const auto middle = speeds.begin() + static_cast<std::ptrdiff_t>(speeds.size() / 2);
    std::ranges::nth_element(speeds, middle, {}, &EventSpeed::seen);
    const double most = 3.0 * 3.0 * middle->seen;
    double sum = 0.0;
    for (const auto& speed : speeds) {
        sum += std::min(speed.seen, most) - speed.noise;
    }
    return std::max(sum / static_cast<double>(speeds.size()), 0.0);
}

void setSpeed(Propagated& step, const EventSpeed& speed, double& ownShare, double square)
{
    const double own = square * speed.own;
    const double shared = (square - speed.withoutNoise()) * speed.shared;
    step.shares.events = std::max(step.shares.events + own - ownShare + shared, 0.0);
    ownShare = own;
    const double common = step.common.events * step.common.events + shared;
    step.common.events = std::sqrt(std::max(common, 0.0));
}

} // namespace

double EventSpeed::withoutNoise() const
{
    return seen > noise ? seen - noise * noise / seen : 0.0;
}

void shareEventSpeeds(std::span<Propagated* const> steps)
{
    for (const Kind kind : {&Propagated::atContact, &Propagated::atToeOff}) {
        const auto square = meanSquare(steps, kind);
        for (Propagated* step : steps) {
            if (const auto& speed = step->*kind; speed && square) {
                auto& detail = step->detail;
                setSpeed(*step, *speed,
                         kind == &Propagated::atContact ? detail.contacts : detail.toeOffs,
                         *square);
            }
        }
    }
}

} // namespace latemile
