// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/shown_clip.hpp"

#include "ui/document/clip_document.hpp"

namespace latemile::ui {

SheetClip shownClip(const ClipDocument& clip)
{
    return {.file = clip.file(),
            .clip = clip.clip(),
            .index = clip.index(),
            .readings = *clip.readings()};
}

} // namespace latemile::ui
