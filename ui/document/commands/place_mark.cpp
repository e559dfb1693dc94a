// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/place_mark.hpp"

#include <QCoreApplication>

namespace latemile::ui {

PlaceMark::PlaceMark(ClipDocument& document, const MarkKey& key, PixelPoint at)
    : MarksEdit(document, {{key, Mark{.at = at, .origin = Origin::Placed, .sePx = {}}}},
                QCoreApplication::translate("Commands", "place %1").arg(markName(document, key))),
      m_key(key)
{
}

void PlaceMark::redo()
{
    m_wasUnseen = m_document.replaceUnseen(m_key, false);
    MarksEdit::redo();
}

void PlaceMark::undo()
{
    MarksEdit::undo();
    m_document.replaceUnseen(m_key, m_wasUnseen);
}

} // namespace latemile::ui
