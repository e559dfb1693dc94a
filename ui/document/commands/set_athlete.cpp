// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_athlete.hpp"

#include <utility>

namespace latemile::ui {

SetAthlete::SetAthlete(SessionDocument& document, Athlete to, const QString& name, int gesture)
    : QUndoCommand(name), m_document(document), m_other(std::move(to)), m_gesture(gesture)
{
}

bool SetAthlete::mergeWith(const QUndoCommand* later)
{
    return dynamic_cast<const SetAthlete*>(later) != nullptr;
}

void SetAthlete::exchange()
{
    m_other = m_document.replaceAthlete(std::move(m_other));
}

} // namespace latemile::ui
