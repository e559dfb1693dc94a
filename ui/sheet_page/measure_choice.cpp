// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/measure_choice.hpp"

#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

std::string idOf(const QListWidgetItem& item)
{
    return item.data(Qt::UserRole).toString().toStdString();
}

void addMeasure(QListWidget* list, const Measure& measure)
{
    auto* item = new QListWidgetItem(fromUtf8(measure.name), list);
    item->setData(Qt::UserRole, fromUtf8(measure.id));
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
    item->setCheckState(Qt::Unchecked);
    item->setToolTip(fromUtf8(measure.meaning).toHtmlEscaped());
}

} // namespace

MeasureChoice::MeasureChoice(const PageContext& context, const SheetMaker& maker, QWidget* parent)
    : QWidget(parent), m_context(context), m_maker(maker), m_state(quietLabel({}, this)),
      m_list(new QListWidget(this))
{
    m_state->setWordWrap(true);
    m_list->setAccessibleName(tr("Measures on the sheet"));
    auto* usual = new QPushButton(tr("The usual six"), this);
    connect(usual, &QPushButton::clicked, this, [this] { take(std::vector<std::string>{}); });
    connect(m_list, &QListWidget::itemChanged, this, qOverload<>(&MeasureChoice::take));
    connect(&context.session, &SessionDocument::aboutChanged, this, &MeasureChoice::fill);
    connect(&context.session, &SessionDocument::ownMeasuresChanged, this, &MeasureChoice::offer);
    connect(&maker, &SheetMaker::made, this, &MeasureChoice::fill);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, gridStep, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_state);
    column->addWidget(m_list, 1);
    column->addWidget(usual, 0, Qt::AlignLeft);
    offer();
}

/// The table's measures and the coach's own that a clip from the side can tell.
void MeasureChoice::offer()
{
    m_filling = true;
    m_list->clear();
    for (const Measure* measure : m_context.session.ownMeasures().all()) {
        if (!measure->isClass && measure->feet != Feet::Behind) {
            addMeasure(m_list, *measure);
        }
    }
    fill();
}

void MeasureChoice::fill()
{
    m_filling = true;
    const SessionAbout& about = m_context.session.about();
    const auto& ids = about.measures.empty() ? defaultSheetMeasures() : about.measures;
    for (int row = 0; row < m_list->count(); ++row) {
        QListWidgetItem* item = m_list->item(row);
        const bool on = std::ranges::find(ids, idOf(*item)) != ids.end();
        item->setCheckState(on ? Qt::Checked : Qt::Unchecked);
    }
    m_filling = false;
    setState(*m_state, about.measuresAfterLooking ? "doubt" : "");
    m_state->setText(
        about.measuresAfterLooking
            ? tr("! Changed with the numbers in sight: the sheet says so. Undo takes it back.")
        : m_maker.content()
            ? tr("%1 chosen before looking. A change now would stand on the sheet as made with "
                 "the numbers in sight.")
                  .arg(ids.size())
            : tr("%1 chosen. Settle them now, before there are numbers to look at.")
                  .arg(ids.size()));
}

void MeasureChoice::take()
{
    if (m_filling) {
        return;
    }
    std::vector<std::string> ids;
    for (int row = 0; row < m_list->count(); ++row) {
        if (m_list->item(row)->checkState() == Qt::Checked) {
            ids.push_back(idOf(*m_list->item(row)));
        }
    }
    take(std::move(ids));
}

void MeasureChoice::take(std::vector<std::string> measures)
{
    SessionAbout about = m_context.session.about();
    if (about.measures == measures) {
        return;
    }
    about.measures = std::move(measures);
    about.measuresAfterLooking = about.measuresAfterLooking || m_maker.content().has_value();
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("choose measures"), ++m_gesture));
}

} // namespace latemile::ui
