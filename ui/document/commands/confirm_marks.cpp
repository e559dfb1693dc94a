// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/confirm_marks.hpp"

#include "ui/document/place_name.hpp"

#include <QCoreApplication>

namespace latemile::ui {

ConfirmMarks::ConfirmMarks(ClipDocument& document, FrameNumber frame,
                           const std::vector<Landmark>& asked)
    : MarksEdit(
          document, confirmed(document, frame, asked),
          QCoreApplication::translate("Commands", "confirm %1").arg(placeName(document, frame)))
{
}

MarksEdit::Changes ConfirmMarks::confirmed(const ClipDocument& document, FrameNumber frame,
                                           const std::vector<Landmark>& asked)
{
    Changes changes;
    for (const Landmark landmark : asked) {
        const MarkKey key{frame, BodySide::Near, landmark};
        const Mark* mark = document.marking().find(key);
        if (mark != nullptr && mark->origin != Origin::Placed) {
            changes[key] = Mark{.at = mark->at, .origin = Origin::Placed, .sePx = {}};
        }
    }
    return changes;
}

} // namespace latemile::ui
