// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/believable.hpp"

#include "core/clip/opened_file.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double mostStretched = 8; ///< what clip_facts makes of a false header

bool isLength(double number)
{
    return std::isfinite(number) && number >= 0;
}

} // namespace

bool isBelievable(const UprightShape& shape)
{
    const int turn = shape.orientation.clockwiseDegrees;
    const double aspect = shape.pixelAspect;
    return shape.storedWidth > 0 && shape.storedHeight > 0 &&
           std::int64_t{shape.storedWidth} * shape.storedHeight <= largestPicture &&
           aspect >= 1 / mostStretched && aspect <= mostStretched &&
           (turn == 0 || turn == 90 || turn == 180 || turn == 270);
}

bool isBelievable(const ClipFacts& facts)
{
    return isLength(facts.containerRate) && isLength(facts.captureRate) &&
           isLength(facts.slowMotion) && facts.slowMotion > 0 && isLength(facts.longestGap) &&
           isLength(facts.duration.count());
}

bool areBelievableTimes(const std::vector<double>& times)
{
    return !times.empty() && times.front() == 0 && std::isfinite(times.back()) &&
           std::all_of(times.begin(), times.end(), isLength) &&
           std::is_sorted(times.begin(), times.end());
}

bool areBelievableStarts(const std::vector<std::int64_t>& starts, std::size_t frames)
{
    for (std::size_t rank = 0; rank < starts.size(); ++rank) {
        if (starts[rank] < 0 || starts[rank] > static_cast<std::int64_t>(rank)) {
            return false;
        }
    }
    return starts.size() == frames;
}

} // namespace latemile
