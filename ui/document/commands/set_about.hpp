// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/session_document.hpp"

#include <QUndoCommand>

namespace latemile::ui {

/// The coach states something else about the session; `name` says what. Statements of one gesture
/// (the typing in one field) are one step back.
class SetAbout final : public QUndoCommand {
public:
    SetAbout(SessionDocument& document, SessionAbout to, const QString& name, int gesture);
    void redo() override { exchange(); }
    void undo() override { exchange(); }
    [[nodiscard]] int id() const override { return 6000000 + m_gesture % 1000000; }
    bool mergeWith(const QUndoCommand* later) override;

private:
    void exchange();
    SessionDocument& m_document;
    SessionAbout m_other; ///< whichever of old and new the document does not hold
    const int m_gesture;
};

} // namespace latemile::ui
