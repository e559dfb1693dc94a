// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/selection.hpp"

#include "ui/document/clip_document.hpp"

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
