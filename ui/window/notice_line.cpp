// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/notice_line.hpp"

#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QHBoxLayout>
#include <QPushButton>

namespace latemile::ui {

NoticeLine::NoticeLine(QWidget* parent)
    : QWidget(parent), m_text(plainLabel({}, this)), m_first(new QPushButton(this)),
      m_second(new QPushButton(tr("Leave them out"), this))
{
    m_text->setWordWrap(true);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    row->setSpacing(gridStep);
    row->addWidget(m_text, 1);
    row->addWidget(m_first, 0, Qt::AlignTop);
    row->addWidget(m_second, 0, Qt::AlignTop);
    connect(m_first, &QPushButton::clicked, this, &NoticeLine::answer);
    connect(m_second, &QPushButton::clicked, this, &NoticeLine::leaveOutWanted);
    hide();
}

void NoticeLine::setSession(SessionDocument* session)
{
    m_session = session;
    if (m_session) {
        connect(&m_session->saver(), &Saver::remarkChanged, this, &NoticeLine::tell);
        connect(m_session, &SessionDocument::editRefused, this, &NoticeLine::tellRefused);
    }
    tell();
}

NoticeLine::About NoticeLine::about() const
{
    if (!m_session) {
        return About::Nothing;
    }
    if (m_session->saver().hasRecovery()) {
        return About::Recovery;
    }
    if (m_session->isReadOnly()) {
        return About::ReadOnly;
    }
    return m_session->saver().remark().isEmpty() ? About::Nothing : About::Remark;
}

QString NoticeLine::words() const
{
    if (about() != About::Recovery) {
        return m_session ? m_session->saver().remark() : QString();
    }
    const Recovery& recovery = m_session->saver().recovery();
    QString words =
        recovery.holds.empty()
            ? tr("Latemile ended early last time.")
            : tr("Latemile ended early last time. These edits are not in the session yet: %1.")
                  .arg(fromUtf8(recovery.holds));
    if (recovery.unusable > 0) {
        words += QLatin1Char(' ') + tr("Of the later ones %1 cannot be used, since one before them "
                                       "is damaged; they stay in a file beside the session.")
                                        .arg(recovery.unusable);
    }
    return words;
}

void NoticeLine::tell()
{
    const About what = about();
    setVisible(what != About::Nothing);
    m_text->setText(words());
    setState(*m_text, "");
    m_second->setVisible(what == About::Recovery);
    m_first->setText(what == About::Recovery   ? tr("Take the edits over")
                     : what == About::ReadOnly ? tr("Try again")
                                               : tr("Understood"));
}

void NoticeLine::tellRefused()
{
    m_text->setText(about() == About::Recovery
                        ? tr("! Not changed. First the edits of last time: %1").arg(words())
                        : tr("! Not changed. %1").arg(words()));
    setState(*m_text, "bad");
}

void NoticeLine::answer()
{
    switch (about()) {
    case About::Recovery:
        emit recoverWanted();
        break;
    case About::ReadOnly:
        emit againWanted();
        break;
    case About::Remark:
    case About::Nothing:
        hide();
        break;
    }
}

} // namespace latemile::ui
