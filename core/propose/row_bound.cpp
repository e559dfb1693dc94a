// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/row_bound.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace latemile {

namespace {

constexpr double usualTrunkCm = 50.0;

} // namespace

double trunkPx(const Marking& marking)
{
    std::vector<double> lengths;
    for (const auto& [key, hip] : marking.marks) {
        if (key.side != BodySide::Near || key.landmark != Landmark::Hip) {
            continue;
        }
        if (const Mark* shoulder = marking.find({key.frame, BodySide::Near, Landmark::Shoulder})) {
            lengths.push_back(std::hypot(shoulder->at.u - hip.at.u, shoulder->at.v - hip.at.v));
        }
    }
    return lengths.empty() ? 0.0 : upperMedianOf(std::move(lengths));
}

double rowBoundInTrunks(Landmark landmark, const ClickErrors& clicks)
{
    constexpr double least = 0.03;
    constexpr double overClick = 1.5;
    return std::max(least, overClick * clicks.of(landmark) / usualTrunkCm);
}

double proposalError(const Mark& mark, double trunkPx)
{
    constexpr double statesNoneCm = 3.0;
    return mark.sePx.value_or(statesNoneCm / usualTrunkCm * trunkPx);
}

Seconds eventBound(Seconds frameInterval)
{
    return std::max(Seconds{0.012}, 1.5 * frameInterval);
}

} // namespace latemile
