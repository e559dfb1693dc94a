// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/path_upkeep.hpp"

#include "ui/document/clip_document.hpp"

#include <set>
#include <utility>

namespace latemile::ui {
namespace {

constexpr int pauseMs = 15;

std::map<MarkKey, PixelPoint> placedIn(const Marking& marking)
{
    std::map<MarkKey, PixelPoint> placed;
    for (const auto& [key, mark] : marking.marks) {
        if (mark.origin == Origin::Placed) {
            placed.emplace(key, mark.at);
        }
    }
    return placed;
}

std::set<MarkKey> differing(const std::map<MarkKey, PixelPoint>& a,
                            const std::map<MarkKey, PixelPoint>& b)
{
    std::set<MarkKey> keys;
    const auto addMissing = [&keys](const auto& from, const auto& in) {
        for (const auto& [key, at] : from) {
            const auto found = in.find(key);
            if (found == in.end() || found->second != at) {
                keys.insert(key);
            }
        }
    };
    addMissing(a, b);
    addMissing(b, a);
    return keys;
}

using Line = std::pair<BodySide, Landmark>;

std::set<Line> followedIn(const Marking& marking)
{
    std::set<Line> lines;
    for (const auto& [key, mark] : marking.marks) {
        if (mark.origin == Origin::Followed) {
            lines.emplace(key.side, key.landmark);
        }
    }
    return lines;
}

} // namespace

PathUpkeep::PathUpkeep(QObject* parent) : LongWork(parent)
{
    m_pause.setSingleShot(true);
    m_pause.setInterval(pauseMs);
    connect(&m_pause, &QTimer::timeout, this, &PathUpkeep::followAnew);
}

void PathUpkeep::keep(ClipDocument& clip, std::shared_ptr<const FollowedFlow> flow)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    stop();
    m_pause.stop();
    m_clip = &clip;
    m_flow = std::move(flow);
    m_placed = placedIn(clip.marking());
    connect(&clip, &ClipDocument::markChanged, this, [this] {
        if (!m_isTaking) {
            m_pause.start();
        }
    });
}

void PathUpkeep::forget()
{
    stop();
    m_pause.stop();
    m_flow.reset();
}

void PathUpkeep::followAnew()
{
    if (!m_clip || !m_flow) {
        return;
    }
    auto placed = placedIn(m_clip->marking());
    auto changed = differing(m_placed, placed);
    if (changed.empty()) {
        return;
    }
    start<Anew>([flow = m_flow, marking = m_clip->marking(), changed = std::move(changed)](
                    const Tell&) { return Outcome<Anew>(flow->followedAnew(marking, changed)); },
                [this, placed = std::move(placed)](Anew anew) {
                    m_placed = placed;
                    take(std::move(anew));
                });
}

void PathUpkeep::take(Anew anew)
{
    if (!m_clip) {
        return;
    }
    const Marking& marking = m_clip->marking();
    // Where following was undone altogether nothing is to come back.
    const auto lines = followedIn(marking);
    std::erase_if(anew, [&](const auto& entry) {
        const auto& [key, mark] = entry;
        const Mark* there = marking.find(key);
        const bool isOthers = there != nullptr && there->origin != Origin::Followed;
        const bool isSame = there != nullptr ? mark == *there : !mark;
        return isOthers || isSame || marking.unseen.contains(key) ||
               !lines.contains({key.side, key.landmark});
    });
    m_isTaking = true;
    m_clip->exchangeMarks(anew);
    m_isTaking = false;
}

} // namespace latemile::ui
