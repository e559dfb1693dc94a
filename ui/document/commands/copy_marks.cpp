// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/copy_marks.hpp"

#include "ui/document/place_name.hpp"

#include <QCoreApplication>

namespace latemile::ui {

CopyMarks::CopyMarks(ClipDocument& document, FrameNumber from, FrameNumber to,
                     const std::vector<Landmark>& landmarks)
    : MarksEdit(
          document, copied(document, from, to, landmarks),
          QCoreApplication::translate("Commands", "copy marks to %1").arg(placeName(document, to)))
{
}

MarksEdit::Changes CopyMarks::copied(const ClipDocument& document, FrameNumber from, FrameNumber to,
                                     const std::vector<Landmark>& landmarks)
{
    Changes changes;
    for (const Landmark landmark : landmarks) {
        const Mark* there = document.marking().find({from, BodySide::Near, landmark});
        const MarkKey key{to, BodySide::Near, landmark};
        if (there != nullptr && document.marking().find(key) == nullptr &&
            !document.marking().unseen.contains(key)) {
            changes[key] = Mark{.at = there->at, .origin = Origin::Proposed, .sePx = {}};
        }
    }
    return changes;
}

} // namespace latemile::ui
