// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/remove_clip.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {

RemoveClip::RemoveClip(SessionDocument& document, std::size_t at)
    : QUndoCommand(QCoreApplication::translate("Commands", "remove clip")), m_document(document),
      m_at(at)
{
}

void RemoveClip::redo()
{
    m_clip = m_document.takeClip(m_at);
}

void RemoveClip::undo()
{
    m_document.insertClip(m_at, std::move(m_clip));
}

} // namespace latemile::ui
