// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_details.hpp"

#include <utility>

namespace latemile::ui {

SetDetails::SetDetails(ClipDocument& document, ClipDetails to, const QString& name, int gesture)
    : QUndoCommand(name), m_document(document), m_other(std::move(to)), m_gesture(gesture)
{
}

int SetDetails::id() const
{
    return 4000000 + m_gesture % 1000000;
}

bool SetDetails::mergeWith(const QUndoCommand* later)
{
    const auto* other = dynamic_cast<const SetDetails*>(later);
    return other != nullptr && &other->m_document == &m_document;
}

void SetDetails::exchange()
{
    m_other = m_document.replaceDetails(std::move(m_other));
}

} // namespace latemile::ui
