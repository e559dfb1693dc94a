// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/flat_foot_path.hpp"
#include "core/measures/prepared_clip.hpp"
#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// Metres a second, forward through the picture, over the whole of what is marked of the hip.
std::optional<double> speedOfHip(const PreparedClip& clip)
{
    const auto& frames = clip.tracks.framesOf(BodySide::Near, Landmark::Hip);
    if (frames.size() < 2) {
        return std::nullopt;
    }
    const auto* first = clip.tracks.find({frames.front(), BodySide::Near, Landmark::Hip});
    const auto* last = clip.tracks.find({frames.back(), BodySide::Near, Landmark::Hip});
    const double time = (clip.index.time(frames.back()) - clip.index.time(frames.front())).count();
    // Within a step the hip swings back and forth by some centimetres.
    constexpr double shortest = 0.2;
    return time < shortest ? std::nullopt
                           : std::optional((last->plane.x - first->plane.x) / 100.0 / time);
}

} // namespace

std::optional<GroundWitness> groundWitness(const PreparedClip& clip)
{
    std::vector<double> speeds;
    double variance = 0.0;
    for (const auto& step : clip.steps) {
        if (const auto path = flatFootPath(clip, step)) {
            speeds.push_back(path->speed / 100.0);
            variance += path->speedSe * path->speedSe / 10000.0;
        }
    }
    const auto hip = speedOfHip(clip);
    if (speeds.empty() || !hip) {
        return std::nullopt;
    }
    const auto n = static_cast<double>(speeds.size());
    GroundWitness ground{medianOf(speeds), std::sqrt(variance) / n, *hip, false};
    // A runner moves over the ground at this speed, whatever the camera does.
    const double over = std::abs(ground.runner - ground.foot);
    ground.moves = std::abs(ground.foot) > std::max(0.1 * over, 3.0 * ground.footSe);
    return ground;
}

} // namespace latemile
