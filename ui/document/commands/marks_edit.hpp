// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_document.hpp"

#include <QUndoCommand>

#include <map>
#include <optional>
#include <set>

namespace latemile::ui {

/// Some marks of a clip become others: what every command on marks does. Done and undone by the
/// same exchange.
class MarksEdit : public QUndoCommand {
public:
    void redo() override { exchange(); }
    void undo() override { exchange(); }

protected:
    /// Nothing for a key takes its mark away.
    using Changes = std::map<MarkKey, std::optional<Mark>>;
    MarksEdit(ClipDocument& document, Changes changes, const QString& name);

    ClipDocument& m_document;
    Changes m_other; ///< whichever of old and new the document does not hold

private:
    void exchange();
};

/// "knee, step 3 contact": for the names of commands.
[[nodiscard]] QString markName(const ClipDocument& document, const MarkKey& key);

} // namespace latemile::ui
