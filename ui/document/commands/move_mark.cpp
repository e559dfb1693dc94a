// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/move_mark.hpp"

#include <QCoreApplication>

namespace latemile::ui {

MoveMark::MoveMark(ClipDocument& document, const MarkKey& key, PixelPoint to, int gesture)
    : MarksEdit(document, {{key, Mark{.at = to, .origin = Origin::Placed, .sePx = {}}}},
                QCoreApplication::translate("Commands", "move %1").arg(markName(document, key))),
      m_key(key), m_gesture(gesture)
{
}

bool MoveMark::mergeWith(const QUndoCommand* later)
{
    const auto* move = dynamic_cast<const MoveMark*>(later);
    // The document holds the later place already; where this move began is what undo needs.
    return move != nullptr && move->m_key == m_key;
}

} // namespace latemile::ui
