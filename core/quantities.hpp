// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <compare>
#include <cstdint>

namespace latemile {

/// Real time since the first frame shown of a clip: never the file's own time where it is slow
/// motion.
using Seconds = std::chrono::duration<double>;

/// The place of a frame in the order of presentation; the first shown is 0.
struct FrameNumber {
    std::int64_t value{};
    constexpr auto operator<=>(const FrameNumber&) const = default;
};

/// The place of a step in a clip; the first is 1, as coaches count.
struct StepNumber {
    int value{1};
    constexpr auto operator<=>(const StepNumber&) const = default;
};

/// A place in the upright picture: v down, origin at the top left corner, pixel centres at integer
/// + 0.5.
struct PixelPoint {
    double u{};
    double v{};
    constexpr bool operator==(const PixelPoint&) const = default;
};

/// A place in the runner's plane, in centimetres: x forward in the direction of travel, y up along
/// plumb. Rear and front view: x to the athlete's own right.
struct PlanePoint {
    double x{};
    double y{};
    constexpr bool operator==(const PlanePoint&) const = default;
};

} // namespace latemile
