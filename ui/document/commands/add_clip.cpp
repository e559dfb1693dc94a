// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/add_clip.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {

AddClip::AddClip(SessionDocument& document, SessionClip clip)
    : QUndoCommand(QCoreApplication::translate("Commands", "add clip")), m_document(document),
      m_at(document.clips().size()), m_clip(document.makeClip(std::move(clip)))
{
}

void AddClip::redo()
{
    m_document.insertClip(m_at, std::move(m_clip));
}

void AddClip::undo()
{
    m_clip = m_document.takeClip(m_at);
}

} // namespace latemile::ui
