// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/seen_clips.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/earlier_edit.hpp"

#include <QSemaphore>
#include <QUndoStack>

#include <algorithm>
#include <utility>

namespace latemile::ui {

SeenClips::~SeenClips()
{
    QSemaphore done; // a worker's end drops what it has not begun
    m_keeper.post([&done] { done.release(); });
    done.acquire();
}

SeenClips::Seen& SeenClips::of(const ClipDocument& clip)
{
    const auto known = m_seen.find(clip.file());
    if (known != m_seen.end() && isCurrent(clip)) {
        return known->second;
    }
    // After another capture rate was set: by frames, with the times of now.
    auto seen = before(clip);
    if (known != m_seen.end()) {
        seen.turns = known->second.turns;
    }
    return m_seen.insert_or_assign(clip.file(), std::move(seen)).first->second;
}

SeenClips::Seen SeenClips::before(const ClipDocument& clip) const
{
    Seen seen;
    seen.rate = clip.facts().captureRate;
    if (auto looks = looksOf(clip.index(), clip.file())) {
        seen.found = std::move(looks->found);
        seen.path = std::move(looks->path);
        seen.box = looks->box;
        *seen.turns = m_forgetsTurns ? LegTurns() : looks->turns;
        seen.keptTurns = std::move(looks->turns);
    }
    return seen;
}

bool SeenClips::isCurrent(const ClipDocument& clip) const
{
    const auto known = m_seen.find(clip.file());
    return clip.isOpen() && known != m_seen.end() && known->second.rate == clip.facts().captureRate;
}

/// Without it a look is taken again another day: a fault here costs nobody anything else.
void SeenClips::keep(const ClipDocument& clip)
{
    Seen& seen = of(clip);
    seen.keptTurns = *seen.turns;
    m_turnsOnDisk = m_turnsOnDisk || !seen.keptTurns.empty();
    m_keeper.post([looks = ClipLooks{seen.found, seen.path, seen.box, seen.keptTurns},
                   index = clip.index(),
                   file = clip.file()] { (void)keepLooks(looks, index, file); });
}

void SeenClips::keepTurns(const ClipDocument& clip)
{
    if (isCurrent(clip) && of(clip).keptTurns != *of(clip).turns) {
        keep(clip);
    }
}

void SeenClips::watch(const QUndoStack& history, const std::filesystem::path& clipsFolder)
{
    if (m_history == &history) {
        return;
    }
    m_history = &history;
    m_clipsFolder = clipsFolder;
    m_index = history.index();
    connect(&history, &QUndoStack::indexChanged, this, &SeenClips::historyMoved);
}

void SeenClips::historyMoved(int index)
{
    const int before = std::exchange(m_index, index);
    const QUndoCommand* lowest = m_history->command(std::min(index, before));
    if (index == before || dynamic_cast<const EarlierEdit*>(lowest) == nullptr) {
        return;
    }
    m_forgetsTurns = true;
    for (auto& [file, seen] : m_seen) {
        seen.turns->clear();
        seen.keptTurns.clear();
    }
    // An undo key held down comes here many times a second.
    if (std::exchange(m_turnsOnDisk, false)) {
        m_keeper.post([folder = m_clipsFolder] { (void)forgetLegTurns(folder); });
    }
}

} // namespace latemile::ui
