// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/not_visible.hpp"

#include <QCoreApplication>

namespace latemile::ui {

NotVisible::NotVisible(ClipDocument& document, const MarkKey& key)
    : MarksEdit(
          document, {{key, std::nullopt}},
          QCoreApplication::translate("Commands", "not visible: %1").arg(markName(document, key))),
      m_key(key)
{
}

void NotVisible::redo()
{
    MarksEdit::redo();
    m_wasUnseen = m_document.replaceUnseen(m_key, true);
}

void NotVisible::undo()
{
    m_document.replaceUnseen(m_key, m_wasUnseen);
    MarksEdit::undo();
}

} // namespace latemile::ui
