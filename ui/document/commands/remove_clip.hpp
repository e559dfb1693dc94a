// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/session_document.hpp"

#include <QUndoCommand>

#include <memory>

namespace latemile::ui {

/// A clip leaves the session with all its marks; its file stays in the folder until the session is
/// deleted, so that undo can bring everything back.
class RemoveClip final : public QUndoCommand {
public:
    RemoveClip(SessionDocument& document, std::size_t at);
    void redo() override;
    void undo() override;

private:
    SessionDocument& m_document;
    const std::size_t m_at;
    std::unique_ptr<ClipDocument> m_clip; ///< while it is not in the session
};

} // namespace latemile::ui
