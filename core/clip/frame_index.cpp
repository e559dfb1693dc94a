// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_index.hpp"

#include <algorithm>
#include <cassert>

namespace latemile {

FrameNumber FrameIndex::nearest(Seconds time) const
{
    assert(!m_times.empty());
    const auto after = std::lower_bound(m_times.begin(), m_times.end(), time);
    if (after == m_times.begin()) {
        return {0};
    }
    const auto before = std::prev(after);
    const bool isBefore = after == m_times.end() || time - *before <= *after - time;
    return {(isBefore ? before : after) - m_times.begin()};
}

Seconds FrameIndex::interval(FrameNumber frame) const
{
    assert(contains(frame));
    if (size() < 2) {
        return Seconds{0};
    }
    const FrameNumber later{std::max<std::int64_t>(frame.value, 1)};
    return time(later) - time({later.value - 1});
}

Seconds FrameIndex::eventTime(FrameNumber first) const
{
    assert(contains(first));
    if (first.value == 0) {
        return time(first);
    }
    return (time({first.value - 1}) + time(first)) / 2;
}

FrameNumber FrameIndex::firstAtOrAfter(Seconds event) const
{
    return {std::lower_bound(m_times.begin(), m_times.end(), event) - m_times.begin()};
}

} // namespace latemile
