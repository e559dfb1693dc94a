// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/confirm_marks.hpp"

#include "ui/document/place_name.hpp"

#include <QCoreApplication>

namespace latemile::ui {

ConfirmMarks::ConfirmMarks(ClipDocument& document, FrameNumber frame)
    : MarksEdit(
          document, confirmed(document, frame),
          QCoreApplication::translate("Commands", "confirm %1").arg(placeName(document, frame)))
{
}

MarksEdit::Changes ConfirmMarks::confirmed(const ClipDocument& document, FrameNumber frame)
{
    Changes changes;
    for (const auto& [key, mark] : document.marking().marks) {
        if (key.frame == frame && mark.origin != Origin::Placed) {
            changes[key] = Mark{.at = mark.at, .origin = Origin::Placed, .sePx = {}};
        }
    }
    return changes;
}

} // namespace latemile::ui
