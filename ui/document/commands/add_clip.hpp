// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/session_document.hpp"

#include <QUndoCommand>

#include <memory>

namespace latemile::ui {

/// A video file joins the session. Undoing leaves the copied file in the session's folder.
class AddClip final : public QUndoCommand {
public:
    AddClip(SessionDocument& document, SessionClip clip);
    void redo() override;
    void undo() override;

private:
    SessionDocument& m_document;
    const std::size_t m_at;
    std::unique_ptr<ClipDocument> m_clip; ///< while it is not in the session
};

} // namespace latemile::ui
