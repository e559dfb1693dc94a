// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_scene.hpp"

#include <utility>

namespace latemile::ui {

SetScene::SetScene(ClipDocument& document, Scene to, const QString& name, int gesture)
    : QUndoCommand(name), m_document(document), m_other(std::move(to)), m_gesture(gesture)
{
}

int SetScene::id() const
{
    return 2000000 + m_gesture % 1000000;
}

bool SetScene::mergeWith(const QUndoCommand* later)
{
    const auto* other = dynamic_cast<const SetScene*>(later);
    // Each widget counts its own gestures: two of one number are told apart by their names.
    return other != nullptr && &other->m_document == &m_document && other->text() == text();
}

void SetScene::exchange()
{
    m_other = m_document.replaceScene(std::move(m_other));
}

} // namespace latemile::ui
