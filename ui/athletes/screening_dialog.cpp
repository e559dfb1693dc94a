// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/screening_dialog.hpp"

#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {

ScreeningDialog::ScreeningDialog(const Screening& screening, QWidget* parent)
    : QDialog(parent), m_note(new QLineEdit(fromUtf8(screening.note), this)),
      m_told(plainLabel({}, this))
{
    setWindowTitle(tr("Before filming"));
    auto* intro =
        plainLabel(tr("Ask the athlete, and tick what is answered with yes. The questions "
                      "are common practice; they find no illness."),
                   this);
    intro->setWordWrap(true);
    m_told->setWordWrap(true);
    m_note->setPlaceholderText(tr("What was said about it"));
    m_note->setAccessibleName(tr("Note on the answers"));
    QWidget* questions = buildQuestions(screening);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* keep = new QPushButton(tr("Asked: keep the answers"), buttons);
    keep->setProperty("rank", "main");
    buttons->addButton(keep, QDialogButtonBox::AcceptRole);
    keep->setDefault(true);
    buttons->button(QDialogButtonBox::Cancel)->setText(tr("Not asked yet"));
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(2 * gridStep);
    column->addWidget(intro);
    column->addWidget(questions);
    column->addWidget(m_note);
    column->addWidget(m_told);
    column->addWidget(buttons);
    setMinimumWidth(70 * gridStep);
    setTabOrder(m_boxes.back(), m_note);
    setTabOrder(m_note, keep);
    setTabOrder(keep, buttons->button(QDialogButtonBox::Cancel));
    tell();
}

QWidget* ScreeningDialog::buildQuestions(const Screening& screening)
{
    auto* list = new QWidget(this);
    auto* column = new QVBoxLayout(list);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    for (const RedFlag& flag : redFlags()) {
        const QByteArray question(flag.question.data(),
                                  static_cast<qsizetype>(flag.question.size()));
        auto* box =
            new QCheckBox(QCoreApplication::translate("RedFlags", question.constData()), list);
        box->setChecked(std::ranges::find(screening.flags, flag.id) != screening.flags.end());
        connect(box, &QCheckBox::toggled, this, &ScreeningDialog::tell);
        column->addWidget(box);
        m_boxes.push_back(box);
    }
    for (const std::string& id : screening.flags) {
        if (findRedFlag(id) == nullptr) {
            m_unknown.push_back(id);
        }
    }
    return list;
}

Screening ScreeningDialog::screening() const
{
    Screening screening;
    for (std::size_t at = 0; at < m_boxes.size(); ++at) {
        if (m_boxes[at]->isChecked()) {
            screening.flags.emplace_back(redFlags()[at].id);
        }
    }
    screening.flags.insert(screening.flags.end(), m_unknown.begin(), m_unknown.end());
    screening.note = m_note->text().trimmed().toStdString();
    return screening;
}

void ScreeningDialog::tell()
{
    const bool flagged = !screening().flags.empty();
    setState(*m_told, flagged ? "bad" : "");
    m_told->setText(
        flagged ? tr("A licensed clinician first: do not film today unless one has said yes. The "
                     "sheet will say the same in the place of the cues.")
                : tr("Nothing ticked. If anything hurts while running, stop all the same."));
}

} // namespace latemile::ui
