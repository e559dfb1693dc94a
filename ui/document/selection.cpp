// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/selection.hpp"

#include "ui/document/clip_document.hpp"

#include <algorithm>
#include <iterator>

namespace latemile::ui {

void Selection::setClip(ClipDocument* clip)
{
    if (m_clip == clip) {
        return;
    }
    m_clip = clip;
    m_place.reset();
    emit clipChanged();
    emit placeChanged();
}

void Selection::keepAmong(const std::vector<ClipDocument*>& clips)
{
    if (std::ranges::find(clips, m_clip.data()) == clips.end()) {
        setClip(clips.empty() ? nullptr : clips.front());
    }
}

void Selection::goToNextOf(const std::vector<ClipDocument*>& clips)
{
    if (clips.empty()) {
        return;
    }
    const auto now = std::ranges::find(clips, m_clip.data());
    const bool isLast = now == clips.end() || std::next(now) == clips.end();
    setClip(isLast ? clips.front() : *std::next(now));
}

void Selection::setPlace(const std::optional<StepInstant>& place)
{
    if (m_place == place) {
        return;
    }
    m_place = place;
    emit placeChanged();
}

void Selection::setNamesHidden(bool hidden)
{
    if (m_namesHidden != hidden) {
        m_namesHidden = hidden;
        emit namesHiddenChanged(hidden);
    }
}

} // namespace latemile::ui
