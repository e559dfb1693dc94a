// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <string>
#include <vector>

namespace latemile {

/// A body point that is marked somewhere in a clip: a column of a table of points over time.
struct MarkedPoint {
    BodySide side{};
    Landmark landmark{};
    auto operator<=>(const MarkedPoint&) const = default;
};

/// The points that are marked at all, near before far, each from the head down.
[[nodiscard]] std::vector<MarkedPoint> markedPoints(const Marking& marking);
/// The first and the last frame with a mark; both 0 where there is none.
struct MarkedStretch {
    FrameNumber first;
    FrameNumber last;
};
[[nodiscard]] MarkedStretch markedStretch(const Marking& marking);

/// As files of points name it: "near_ear", "left_heel-top".
[[nodiscard]] std::string nameOf(const MarkedPoint& point);

} // namespace latemile
