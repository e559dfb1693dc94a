// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_document.hpp"

#include <QUndoCommand>

namespace latemile::ui {

/// The coach states something else about a clip; `name` says what, as in "set scale line".
/// Statements of one gesture (a drag, the typing in one field) are one step back.
class SetScene final : public QUndoCommand {
public:
    SetScene(ClipDocument& document, Scene to, const QString& name, int gesture);
    void redo() override { exchange(); }
    void undo() override { exchange(); }
    [[nodiscard]] int id() const override;
    bool mergeWith(const QUndoCommand* later) override;

private:
    void exchange();
    ClipDocument& m_document;
    Scene m_other; ///< whichever of old and new the document does not hold
    const int m_gesture;
};

} // namespace latemile::ui
