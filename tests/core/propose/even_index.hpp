// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"

#include <utility>
#include <vector>

namespace latemile::tests {

/// Frames at an even rate a second, the first at 0 s.
inline FrameIndex evenIndex(int frames, double rate)
{
    std::vector<Seconds> times;
    for (int n = 0; n < frames; ++n) {
        times.emplace_back(n / rate);
    }
    return FrameIndex(std::move(times));
}

} // namespace latemile::tests
