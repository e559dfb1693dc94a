// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/edit_history.hpp"
#include "ui/document/session_document.hpp"

#include <QUndoCommand>

#include <string>

namespace latemile::ui {

/// An edit of an earlier run, known by what it changed. Does nothing while `live` is false: as the
/// history is built up again the document holds the edits already.
class EarlierEdit final : public QUndoCommand {
public:
    EarlierEdit(SessionDocument& document, PastEdit edit, const bool& live);
    void redo() override { apply(m_edit.forward); }
    void undo() override { apply(m_edit.back); }

private:
    void apply(const std::string& changes);

    SessionDocument& m_document;
    const PastEdit m_edit;
    const bool& m_live;
};

} // namespace latemile::ui
