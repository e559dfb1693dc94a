// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/recipe.hpp"

#include <cstdint>
#include <vector>

namespace latemile::maker {

/// When a frame was taken and how the file says so.
struct FrameTime {
    std::int64_t stamp{}; ///< in ticks of the container; of the first frame 0
    double seconds{};     ///< real, since the first frame; exactly what the stamp says
};

/// The frames of a clip in order of time. `tick`: seconds of the container's clock. With a
/// variable rate each frame comes up to an eighth of an interval early or late and one in twenty
/// is missing, as with a phone in poor light.
[[nodiscard]] std::vector<FrameTime> frameTimes(const VideoRecipe& recipe, std::uint64_t seed,
                                                double tick);

} // namespace latemile::maker
