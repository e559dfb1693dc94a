// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

#include <utility>
#include <vector>

namespace latemile {

/// The frames of a clip in the order they are shown, each with its real time.
/// A value: copied freely, read from any thread.
class FrameIndex {
public:
    FrameIndex() = default;
    /// `times` one a frame, in order of presentation, never decreasing, the first 0.
    explicit FrameIndex(std::vector<Seconds> times) : m_times(std::move(times)) {}

    [[nodiscard]] std::int64_t size() const { return static_cast<std::int64_t>(m_times.size()); }
    [[nodiscard]] bool contains(FrameNumber frame) const
    {
        return frame.value >= 0 && frame.value < size();
    }
    [[nodiscard]] Seconds time(FrameNumber frame) const
    {
        return m_times[static_cast<std::size_t>(frame.value)];
    }
    /// The frame whose time is nearest; of two equally near the earlier. Needs at least one frame.
    [[nodiscard]] FrameNumber nearest(Seconds time) const;
    /// Local frame interval T_f: the time since the frame before (of the first: to the one after).
    [[nodiscard]] Seconds interval(FrameNumber frame) const;
    /// Half-frame rule: when frame `first` is the first that shows an event, the event's time is
    /// half-way between it and the frame before it (see DEVELOPERS.md, "Times of events"). Of frame
    /// 0: its own time.
    [[nodiscard]] Seconds eventTime(FrameNumber first) const;
    /// The frame a coach would have marked for an event at `event`: the first at or after it.
    /// size() when the event lies after the last frame.
    [[nodiscard]] FrameNumber firstAtOrAfter(Seconds event) const;
    [[nodiscard]] const std::vector<Seconds>& times() const { return m_times; }

private:
    std::vector<Seconds> m_times;
};

} // namespace latemile
