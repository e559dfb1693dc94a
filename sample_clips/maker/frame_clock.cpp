// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/frame_clock.hpp"

#include "sample_clips/maker/random.hpp"

#include <cmath>

namespace latemile::maker {

std::vector<FrameTime> frameTimes(const VideoRecipe& recipe, std::uint64_t seed, double tick)
{
    const double slow = recipe.captureRate / recipe.containerRate.value_or(recipe.captureRate);
    const auto count = std::llround(recipe.duration * recipe.captureRate);
    std::vector<FrameTime> frames;
    bool lastDropped = true; // so that the first is kept
    for (std::int64_t i = 0; i < count; ++i) {
        const auto key = static_cast<std::uint64_t>(i);
        double place = static_cast<double>(i);
        if (recipe.variableRate) {
            const bool drop = !lastDropped && uniform(seed, 500, key) < 0.05;
            lastDropped = drop;
            if (drop) {
                continue;
            }
            place += i == 0 ? 0.0 : 0.25 * (uniform(seed, 501, key) - 0.5);
        } else {
            lastDropped = false;
        }
        const auto stamp = std::llround(place / recipe.captureRate * slow / tick);
        frames.push_back({stamp, static_cast<double>(stamp) * tick / slow});
    }
    return frames;
}

} // namespace latemile::maker
