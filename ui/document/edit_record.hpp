// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/edit_history.hpp"

#include <cstddef>
#include <vector>

class QUndoCommand;
class QUndoStack;

namespace latemile::ui {

/// Keeps for every edit of a history what it did to the session, so that it can be undone after the
/// session was closed and opened again. Commands need not know: it compares the session before and
/// after. What is older than may be kept on disk is forgotten here too.
class EditRecord {
public:
    EditRecord(const QUndoStack& history, Session now);

    /// The history holds these already, as its first commands.
    void beginWith(const EditHistory& past);
    /// To be called whenever the history moved, and whenever the session is looked at anyway: what
    /// changed by itself after an edit (a path that followed a moved mark) goes with that edit.
    void note(Session now);

    [[nodiscard]] EditHistory edits() const;

private:
    struct Entry {
        const QUndoCommand* command; ///< to be compared only
        PastEdit edit;
    };
    [[nodiscard]] std::size_t known() const;
    void addEdits(const Session& now);
    void widenLast(const Session& now);
    void forgetOldest();

    const QUndoStack& m_history;
    Session m_now;
    std::vector<Entry> m_entries;
    std::size_t m_done{};
    std::size_t m_forgotten{}; ///< the first so many entries have lost what they did
};

} // namespace latemile::ui
