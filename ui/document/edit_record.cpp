// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/edit_record.hpp"

#include <QUndoStack>

#include <algorithm>
#include <utility>

namespace latemile::ui {

EditRecord::EditRecord(const QUndoStack& history, Session now)
    : m_history(history), m_now(std::move(now))
{
}

void EditRecord::beginWith(const EditHistory& past)
{
    m_entries.clear();
    for (std::size_t i = 0; i < past.edits.size(); ++i) {
        m_entries.push_back({m_history.command(static_cast<int>(i)), past.edits[i]});
    }
    m_done = past.done;
    m_forgotten = 0;
}

/// How many of the entries the history still holds: a new edit drops what had been undone, and one
/// that came to nothing leaves by itself.
std::size_t EditRecord::known() const
{
    const auto most = std::min(m_entries.size(), static_cast<std::size_t>(m_history.count()));
    std::size_t same = 0;
    while (same < most && m_entries[same].command == m_history.command(static_cast<int>(same))) {
        ++same;
    }
    return same;
}

/// Several may have come at once: the last of them takes all, the others did nothing.
void EditRecord::addEdits(const Session& now)
{
    const auto index = static_cast<std::size_t>(m_history.index());
    for (std::size_t i = m_entries.size(); i < index; ++i) {
        const QUndoCommand* command = m_history.command(static_cast<int>(i));
        const std::string name = command->text().toStdString();
        m_entries.push_back(
            {command, i + 1 == index ? editBetween(name, m_now, now) : PastEdit{name, {}, {}}});
    }
}

/// The last edit went on: a drag, or what followed from it.
void EditRecord::widenLast(const Session& now)
{
    Entry& last = m_entries[m_done - 1];
    if (const auto before = withEdit(m_now, last.edit.back)) {
        last.edit = editBetween(
            m_history.command(static_cast<int>(m_done) - 1)->text().toStdString(), *before, now);
    }
}

/// Always the oldest without a gap: an edit means nothing without all that came after it.
void EditRecord::forgetOldest()
{
    std::size_t bytes = 0;
    for (const Entry& entry : m_entries) {
        bytes += bytesIn(entry.edit);
    }
    const auto tooMany = [&] {
        return m_forgotten + mostKeptEdits < m_entries.size() || bytes > mostKeptBytes;
    };
    for (; m_forgotten + 1 < m_entries.size() && tooMany(); ++m_forgotten) {
        bytes -= bytesIn(m_entries[m_forgotten].edit);
        m_entries[m_forgotten].edit = {};
    }
}

void EditRecord::note(Session now)
{
    const auto index = static_cast<std::size_t>(m_history.index());
    m_entries.resize(known(), {nullptr, {}});
    m_forgotten = std::min(m_forgotten, m_entries.size());
    if (index > m_entries.size()) {
        addEdits(now);
        forgetOldest();
    } else if (index == m_done && index > m_forgotten && index == m_entries.size() &&
               !(now == m_now)) {
        // Where edits were taken back, what still changes by itself is their going, not this edit.
        widenLast(now);
    }
    m_done = index;
    m_now = std::move(now);
}

EditHistory EditRecord::edits() const
{
    // Below what is remembered no edit leads on any more: those after it build on what is
    // forgotten.
    if (m_done < m_forgotten) {
        return {};
    }
    EditHistory history;
    for (std::size_t i = m_forgotten; i < m_entries.size(); ++i) {
        history.edits.push_back(m_entries[i].edit);
    }
    history.done = m_done - m_forgotten;
    return history;
}

} // namespace latemile::ui
