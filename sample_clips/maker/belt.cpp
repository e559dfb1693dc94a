// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/belt.hpp"

#include "sample_clips/maker/noise.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::maker {

namespace {
constexpr std::size_t lanes = 32;
constexpr double laneWidth = 1.5; // cm
constexpr double cell = 0.1;      // cm
constexpr std::size_t cells = 3200;

double greyAt(const Relief& relief, double along, double across)
{
    double grey = 52.0 + 9.0 * relief.rough(along * 0.4, across * 0.9) +
                  7.0 * relief.at(along * 0.1, across * 0.25);
    // Two broken bars and the joint make the movement plain to the eye.
    const bool bar = (along > 40.0 && along < 46.0) || (along > 205.0 && along < 211.0);
    if (bar && std::abs(across) > 9.0 && std::abs(across) < 21.0) {
        grey = 168.0 + 14.0 * relief.rough(along * 0.8, across);
    }
    const double joint = std::abs(along - 120.0 - 0.4 * across);
    return joint < 0.6 ? grey * 0.6 : grey;
}
} // namespace

BeltTexture::BeltTexture(std::uint64_t seed)
{
    const Relief relief(seed + 1);
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        const double across = (static_cast<double>(lane) + 0.5) * laneWidth - 24.0;
        std::vector<double> sums(cells + 1, 0.0);
        for (std::size_t i = 0; i < cells; ++i) {
            const double along = (static_cast<double>(i) + 0.5) * cell;
            sums[i + 1] = sums[i] + greyAt(relief, along, across);
        }
        m_sums.push_back(std::move(sums));
    }
}

double BeltTexture::summed(std::size_t lane, double along) const
{
    const auto& sums = m_sums[lane];
    const double place = along / cell;
    const double turns = std::floor(place / static_cast<double>(cells));
    const double rest = place - turns * static_cast<double>(cells);
    const auto i = std::min(static_cast<std::size_t>(rest), cells - 1);
    return turns * sums[cells] + std::lerp(sums[i], sums[i + 1], rest - static_cast<double>(i));
}

Colour BeltTexture::at(double along, double across, double smear) const
{
    const auto lane = static_cast<std::size_t>(
        std::clamp((across + 24.0) / laneWidth, 0.0, static_cast<double>(lanes) - 1.0));
    const double wide = std::max(smear, 2.0 * cell);
    const double grey =
        (summed(lane, along + 0.5 * wide) - summed(lane, along - 0.5 * wide)) * cell / wide;
    return {grey, grey, grey * 1.02};
}

} // namespace latemile::maker
