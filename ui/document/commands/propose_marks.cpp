// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/propose_marks.hpp"

#include <QCoreApplication>

namespace latemile::ui {

ProposeMarks::ProposeMarks(ClipDocument& document, const std::map<MarkKey, Mark>& proposed,
                           int piece, Others others)
    : MarksEdit(document, changesFor(document, proposed, others),
                QCoreApplication::translate("Commands", "propose landmarks")),
      m_piece(piece)
{
}

bool ProposeMarks::mergeWith(const QUndoCommand* later)
{
    const auto* more = dynamic_cast<const ProposeMarks*>(later);
    if (more == nullptr || more->m_piece != m_piece) {
        return false;
    }
    // Both were done: what stood at a place before the first of them is what undo needs.
    m_other.insert(more->m_other.begin(), more->m_other.end());
    return true;
}

MarksEdit::Changes ProposeMarks::changesFor(const ClipDocument& document,
                                            const std::map<MarkKey, Mark>& proposed, Others others)
{
    const Marking& marking = document.marking();
    Changes changes;
    for (const auto& [key, mark] : marking.marks) {
        if (others == Others::Go && mark.origin == Origin::Proposed && !proposed.contains(key)) {
            changes.emplace(key, std::nullopt);
        }
    }
    for (const auto& [key, mark] : proposed) {
        const Mark* there = marking.find(key);
        const bool isKept = there != nullptr && there->origin != Origin::Proposed;
        const bool isSame = there != nullptr && *there == mark;
        if (!isKept && !isSame && !marking.unseen.contains(key)) {
            changes.emplace(key, mark);
        }
    }
    return changes;
}

} // namespace latemile::ui
