// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/session_bar.hpp"

#include "ui/document/session_document.hpp"
#include "ui/page/elided_label.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDate>
#include <QHBoxLayout>
#include <QLocale>
#include <QToolButton>

namespace latemile::ui {

SessionBar::SessionBar(QWidget* parent)
    : QWidget(parent), m_name(new ElidedLabel(this)), m_date(quietLabel({}, this)),
      m_saved(quietLabel({}, this)), m_undo(new QToolButton(this)), m_redo(new QToolButton(this))
{
    m_name->setProperty("rank", "title");
    m_undo->setText(tr("Undo"));
    m_redo->setText(tr("Redo"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 0);
    row->setSpacing(2 * gridStep);
    row->addWidget(m_name);
    row->addWidget(m_date, 0, Qt::AlignBottom);
    row->addStretch();
    row->addWidget(m_saved);
    auto* pair = new QHBoxLayout;
    pair->setSpacing(gridStep / 2);
    pair->addWidget(m_undo);
    pair->addWidget(m_redo);
    row->addLayout(pair);
    connect(m_undo, &QToolButton::clicked, this, &SessionBar::undoWanted);
    connect(m_redo, &QToolButton::clicked, this, &SessionBar::redoWanted);
    setSession(nullptr);
}

void SessionBar::setSession(SessionDocument* session)
{
    m_session = session;
    if (m_session) {
        connect(m_session, &SessionDocument::athleteChanged, this, &SessionBar::tell);
        connect(m_session, &SessionDocument::aboutChanged, this, &SessionBar::tell);
        connect(&m_session->history(), &QUndoStack::indexChanged, this, &SessionBar::tellHistory);
        connect(&m_session->saver(), &Saver::stateChanged, this, &SessionBar::tellSaved);
    }
    tell();
    tellHistory();
    tellSaved();
}

void SessionBar::setNamesHidden(bool hidden)
{
    m_namesHidden = hidden;
    tell();
}

void SessionBar::tell()
{
    if (!m_session) {
        m_name->setWhole(tr("No session open"));
        m_date->clear();
        return;
    }
    const Athlete& athlete = m_session->athlete();
    const bool code = m_namesHidden || athlete.name.empty();
    m_name->setWhole(fromUtf8(code ? athlete.code : athlete.name));
    const QDate date = QDate::fromString(fromUtf8(m_session->about().date), Qt::ISODate);
    m_date->setText(date.isValid() ? QLocale().toString(date, QLocale::LongFormat)
                                   : fromUtf8(m_session->about().date));
}

void SessionBar::tellHistory()
{
    const QString undo = m_session ? m_session->history().undoText() : QString();
    const QString redo = m_session ? m_session->history().redoText() : QString();
    m_undo->setEnabled(m_session && m_session->history().canUndo());
    m_redo->setEnabled(m_session && m_session->history().canRedo());
    const QString undoName = undo.isEmpty() ? tr("Undo") : tr("Undo: %1").arg(undo);
    const QString redoName = redo.isEmpty() ? tr("Redo") : tr("Redo: %1").arg(redo);
    m_undo->setToolTip(undoName);
    m_undo->setAccessibleName(undoName);
    m_redo->setToolTip(redoName);
    m_redo->setAccessibleName(redoName);
}

void SessionBar::tellSaved()
{
    if (!m_session) {
        m_saved->clear();
        return;
    }
    switch (m_session->saver().state()) {
    case Saver::State::Saved:
        m_saved->setText(tr("Saved"));
        setState(*m_saved, "");
        break;
    case Saver::State::Pending:
        m_saved->setText(tr("Saving…"));
        setState(*m_saved, "");
        break;
    case Saver::State::ReadOnly:
        m_saved->setText(tr("Read only"));
        setState(*m_saved, "");
        break;
    case Saver::State::Failed:
        m_saved->setText(tr("Not saved: %1").arg(m_session->saver().fault()));
        setState(*m_saved, "bad");
        break;
    }
}

} // namespace latemile::ui
