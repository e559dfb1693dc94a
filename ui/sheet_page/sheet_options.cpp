// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/sheet_options.hpp"

#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"
#include "ui/marks/cell_plan.hpp"
#include "ui/page/labels.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QSettings>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr std::size_t mostCues = 2;

QListWidgetItem* checkable(QListWidget* list, const QString& text, const QString& id, bool on)
{
    auto* item = new QListWidgetItem(text, list);
    item->setData(Qt::UserRole, id);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
    item->setCheckState(on ? Qt::Checked : Qt::Unchecked);
    return item;
}

std::vector<std::string> checkedOf(const QListWidget& list)
{
    std::vector<std::string> ids;
    for (int row = 0; row < list.count(); ++row) {
        if (list.item(row)->checkState() == Qt::Checked) {
            ids.push_back(list.item(row)->data(Qt::UserRole).toString().toStdString());
        }
    }
    return ids;
}

bool holds(const std::vector<std::string>& ids, std::string_view id)
{
    return std::ranges::find(ids, id) != ids.end();
}

} // namespace

SheetOptions::SheetOptions(const PageContext& context, const SheetMaker& maker, QWidget* parent)
    : QWidget(parent), m_context(context), m_maker(maker), m_measures(new QListWidget(this)),
      m_cues(new QListWidget(this)), m_note(new QPlainTextEdit(this)), m_coach(new QLineEdit(this)),
      m_contact(new QLineEdit(this)), m_paper(new QComboBox(this)),
      m_large(new QCheckBox(tr("Large print"), this)),
      m_grey(new QCheckBox(tr("Black and white"), this)),
      m_inches(new QCheckBox(tr("Inches and miles"), this))
{
    build();
    connect(m_measures, &QListWidget::itemChanged, this, &SheetOptions::takeMeasures);
    connect(m_cues, &QListWidget::itemChanged, this, &SheetOptions::takeCues);
    connect(m_note, &QPlainTextEdit::textChanged, this, &SheetOptions::takeWords);
    connect(m_coach, &QLineEdit::textEdited, this, &SheetOptions::takeWords);
    connect(m_contact, &QLineEdit::textEdited, this, [this](const QString& text) {
        QSettings().setValue(QStringLiteral("sheet/contact"), text);
        emit styleChanged();
    });
    connect(m_paper, &QComboBox::currentIndexChanged, this, &SheetOptions::styleChanged);
    for (QCheckBox* box : {m_large, m_grey, m_inches}) {
        connect(box, &QCheckBox::toggled, this, &SheetOptions::styleChanged);
    }
    connect(&context.session, &SessionDocument::aboutChanged, this, &SheetOptions::tellAbout);
    tellAbout();
}

void SheetOptions::build()
{
    m_measures->setAccessibleName(tr("Measures on the sheet"));
    m_cues->setAccessibleName(tr("Cues on the sheet"));
    m_note->setAccessibleName(tr("Coach's note"));
    m_coach->setAccessibleName(tr("Coach"));
    m_contact->setAccessibleName(tr("Contact"));
    m_paper->setAccessibleName(tr("Paper"));
    m_paper->addItem(tr("A4"));
    m_paper->addItem(tr("Letter"));
    m_contact->setText(QSettings().value(QStringLiteral("sheet/contact")).toString());
    m_measures->setMinimumHeight(10 * gridStep);
    m_cues->setMinimumHeight(9 * gridStep);
    m_note->setMinimumHeight(6 * gridStep);
    m_note->setMaximumHeight(12 * gridStep);
    auto* form = new QFormLayout;
    form->setSpacing(gridStep);
    form->addRow(tr("Coach"), m_coach);
    form->addRow(tr("Contact"), m_contact);
    form->addRow(tr("Paper"), m_paper);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(headingLabel(tr("Measures, chosen before looking"), this));
    column->addWidget(m_measures, 3);
    column->addWidget(headingLabel(tr("Cues: none ticked lets the numbers suggest"), this));
    column->addWidget(m_cues, 2);
    column->addWidget(headingLabel(tr("Note to the athlete"), this));
    column->addWidget(m_note, 1);
    column->addLayout(form);
    auto* boxes = new QVBoxLayout;
    boxes->setSpacing(gridStep / 2);
    boxes->addWidget(m_large);
    boxes->addWidget(m_grey);
    boxes->addWidget(m_inches);
    column->addLayout(boxes);
}

SheetStyle SheetOptions::style() const
{
    SheetStyle style;
    style.paper = m_paper->currentIndex() == 1 ? Paper::Letter : Paper::A4;
    style.largePrint = m_large->isChecked();
    style.blackAndWhite = m_grey->isChecked();
    style.inches = m_inches->isChecked();
    style.contact = m_contact->text();
    return style;
}

void SheetOptions::tellAbout()
{
    m_filling = true;
    fillMeasures();
    fillCues();
    const SessionAbout& about = m_context.session.about();
    if (m_note->toPlainText() != fromUtf8(about.note)) {
        m_note->setPlainText(fromUtf8(about.note));
    }
    if (m_coach->text() != fromUtf8(about.coach)) {
        m_coach->setText(fromUtf8(about.coach));
    }
    m_filling = false;
}

void SheetOptions::fillMeasures()
{
    const auto& chosen = m_context.session.about().measures;
    const auto& ids = chosen.empty() ? defaultMeasures() : chosen;
    if (m_measures->count() == 0) {
        for (const Measure& measure : measureTable()) {
            if (!measure.isClass && measure.feet != Feet::Behind) {
                checkable(m_measures, fromUtf8(measure.name), fromUtf8(measure.id), false)
                    ->setToolTip(fromUtf8(measure.meaning).toHtmlEscaped());
            }
        }
    }
    for (int row = 0; row < m_measures->count(); ++row) {
        QListWidgetItem* item = m_measures->item(row);
        const bool on = holds(ids, item->data(Qt::UserRole).toString().toStdString());
        item->setCheckState(on ? Qt::Checked : Qt::Unchecked);
    }
}

void SheetOptions::fillCues()
{
    const auto& chosen = m_context.session.about().cues;
    if (m_cues->count() == 0) {
        for (const Cue& cue : m_maker.cues()) {
            checkable(m_cues, fromUtf8(cue.think), fromUtf8(cue.id), false)
                ->setToolTip((fromUtf8(cue.why) + u' ' + fromUtf8(cue.drill)).toHtmlEscaped());
        }
    }
    for (int row = 0; row < m_cues->count(); ++row) {
        QListWidgetItem* item = m_cues->item(row);
        const bool on = holds(chosen, item->data(Qt::UserRole).toString().toStdString());
        item->setCheckState(on ? Qt::Checked : Qt::Unchecked);
        // Two things are all that anyone can think of while running.
        item->setFlags(on || chosen.size() < mostCues ? item->flags() | Qt::ItemIsEnabled
                                                      : item->flags() & ~Qt::ItemIsEnabled);
    }
}

void SheetOptions::takeMeasures()
{
    if (m_filling) {
        return;
    }
    SessionAbout about = m_context.session.about();
    about.measures = checkedOf(*m_measures);
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("choose measures"), ++m_gesture));
}

void SheetOptions::takeCues()
{
    if (m_filling) {
        return;
    }
    SessionAbout about = m_context.session.about();
    about.cues = checkedOf(*m_cues);
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("choose cues"), ++m_gesture));
}

void SheetOptions::takeWords()
{
    if (m_filling) {
        return;
    }
    SessionAbout about = m_context.session.about();
    about.note = m_note->toPlainText().toStdString();
    about.coach = m_coach->text().toStdString();
    // The typing in a field is one step back until something else is edited.
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("write on the sheet"), m_gesture));
}

} // namespace latemile::ui
