// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/median_interval.hpp"

#include "core/median.hpp"

#include <utility>

namespace latemile {

Seconds medianInterval(const FrameIndex& index)
{
    std::vector<Seconds> intervals;
    for (std::int64_t i = 1; i < index.size(); ++i) {
        intervals.push_back(index.time({i}) - index.time({i - 1}));
    }
    return intervals.empty() ? Seconds{} : upperMedianOf(std::move(intervals));
}

} // namespace latemile
