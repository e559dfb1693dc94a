// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_about.hpp"

#include <utility>

namespace latemile::ui {

SetAbout::SetAbout(SessionDocument& document, SessionAbout to, const QString& name, int gesture)
    : QUndoCommand(name), m_document(document), m_other(std::move(to)), m_gesture(gesture)
{
}

bool SetAbout::mergeWith(const QUndoCommand* later)
{
    return dynamic_cast<const SetAbout*>(later) != nullptr;
}

void SetAbout::exchange()
{
    m_other = m_document.replaceAbout(std::move(m_other));
}

} // namespace latemile::ui
