// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

#include <span>
#include <vector>

namespace latemile {

/// A point of a path as it was found, with the weight it has against its neighbours (> 0).
struct PathSample {
    Seconds time{};
    PixelPoint at;
    double weight{1.0};
};

/// The path smoothed over real time: at each sample the value of a parabola fitted to what lies
/// within 30 ms, nearer samples counting more and far outliers not at all (tricube and biweight
/// weights: Cleveland 1979, robust local regression). Where fewer than five lie so near the sample
/// stays as it is. One point a sample, in their order; `samples` in order of time.
[[nodiscard]] std::vector<PixelPoint> smoothed(std::span<const PathSample> samples);

} // namespace latemile
