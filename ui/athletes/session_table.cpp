// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/session_table.hpp"

#include <QDate>
#include <QHeaderView>
#include <QLocale>

#include <utility>

namespace latemile::ui {
namespace {

constexpr int columns = 4;

QString dateText(const QString& iso)
{
    const QDate date = QDate::fromString(iso, Qt::ISODate);
    return date.isValid() ? QLocale().toString(date, QLocale::LongFormat) : iso;
}

} // namespace

SessionTable::SessionTable(QWidget* parent) : QTableWidget(0, columns, parent)
{
    setHorizontalHeaderLabels({tr("Session"), tr("Clips"), tr("Before filming"), tr("To do")});
    verticalHeader()->hide();
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(columns - 1, QHeaderView::Stretch);
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setTabKeyNavigation(false);
    setShowGrid(false);
    setAccessibleName(tr("Sessions"));
}

void SessionTable::setSessions(std::vector<SessionEntry> sessions)
{
    m_sessions = std::move(sessions);
    setRowCount(static_cast<int>(m_sessions.size()));
    for (int row = 0; row < rowCount(); ++row) {
        const SessionEntry& session = m_sessions[static_cast<std::size_t>(row)];
        int column = 0;
        for (const QString& text :
             {dateText(session.date), session.clips, session.asked, session.toDo}) {
            auto* cell = new QTableWidgetItem(text);
            cell->setToolTip(text.toHtmlEscaped());
            setItem(row, column++, cell);
        }
    }
    if (rowCount() > 0) {
        selectRow(0);
    }
}

const SessionEntry* SessionTable::chosen() const
{
    const int row = currentRow();
    return row < 0 || row >= static_cast<int>(m_sessions.size())
               ? nullptr
               : &m_sessions[static_cast<std::size_t>(row)];
}

} // namespace latemile::ui
