// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/checks.hpp"
#include "core/measures/flat_foot_path.hpp"
#include "core/median.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile {

namespace {

/// A median of n alike is less sure than their mean by this factor (large n, normal errors).
const double medianLoss = std::sqrt(std::numbers::pi / 2.0);

} // namespace

std::optional<BeltWitness> beltWitness(const PreparedClip& clip)
{
    const auto belt = clip.conditions.scene.beltSpeed;
    if (!belt || *belt <= 0.0 || !clip.plane.hasScale()) {
        return std::nullopt;
    }
    std::vector<double> ratios;
    std::vector<double> slopes;
    double variance = 0.0;
    for (const auto& step : clip.steps) {
        if (const auto path = flatFootPath(clip, step)) {
            const double perSpeed = 1.0 / (100.0 * *belt);
            ratios.push_back(-path->speed * perSpeed);
            slopes.push_back(atan2Degrees(-path->rise, -path->speed));
            variance += path->speedSe * perSpeed * path->speedSe * perSpeed;
        }
    }
    if (ratios.empty()) {
        return std::nullopt;
    }
    const auto n = static_cast<double>(ratios.size());
    const double marks = (ratios.size() > 2 ? medianLoss : 1.0) * std::sqrt(variance) / n;
    const double ratio = medianOf(ratios);
    return BeltWitness{ratio, std::hypot(marks, ratio * clip.plane.relativeScaleError()),
                       medianOf(slopes), static_cast<int>(ratios.size())};
}

} // namespace latemile
