// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/marked_clip.hpp"

#include <algorithm>
#include <vector>

namespace latemile {
namespace {

/// Of an even number of intervals the upper middle one. Zero for a clip of a single frame.
Seconds medianInterval(const FrameIndex& index)
{
    std::vector<Seconds> intervals;
    for (std::int64_t n = 1; n < index.size(); ++n) {
        intervals.push_back(index.interval({n}));
    }
    if (intervals.empty()) {
        return {};
    }
    const auto middle = intervals.begin() + static_cast<std::ptrdiff_t>(intervals.size() / 2);
    std::ranges::nth_element(intervals, middle);
    return *middle;
}

} // namespace

MarkedClip markedClipOf(const SessionClip& clip, const std::string& date, const ClipFacts& facts,
                        const FrameIndex& index, const AthleteFacts& athlete,
                        const ClickErrors& clicks)
{
    MarkedClip marked;
    marked.conditions.file = clip.file;
    marked.conditions.date = date;
    marked.conditions.condition = clip.condition;
    marked.conditions.minute = clip.minute;
    marked.conditions.inclinePercent = clip.inclinePercent;
    marked.conditions.shoes = clip.shoes;
    marked.conditions.frames = index.size();
    marked.conditions.frameInterval = medianInterval(index);
    marked.conditions.captureRate = facts.captureRate;
    marked.conditions.scene = clip.scene;
    marked.index = index;
    marked.marking = clip.marking;
    marked.athlete = athlete;
    marked.clicks = clicks;
    return marked;
}

} // namespace latemile
