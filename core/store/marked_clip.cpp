// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/marked_clip.hpp"

#include "core/clip/median_interval.hpp"

namespace latemile {

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
