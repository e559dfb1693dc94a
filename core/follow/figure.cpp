// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/figure.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

std::optional<double> lengthOf(const Figure& figure, const RigidPart& part)
{
    const auto& a = figure[placeOf(part.landmarks[0])];
    const auto& b = figure[placeOf(part.landmarks[1])];
    if (!a || !b) {
        return std::nullopt;
    }
    return std::hypot(a->u - b->u, a->v - b->v);
}

} // namespace

std::optional<double> roughPixelsPerCm(const std::vector<Figure>& figures)
{
    std::vector<double> found;
    for (const auto& figure : figures) {
        for (const auto& part : rigidParts) {
            const auto length = lengthOf(figure, part);
            if (length && *length > 0.0) {
                found.push_back(*length / part.lengthCm);
            }
        }
    }
    return found.empty() ? std::nullopt : std::optional(upperMedianOf(std::move(found)));
}

} // namespace latemile
