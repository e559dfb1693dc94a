// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/step_panel.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/step_delegate.hpp"
#include "ui/marks/step_model.hpp"
#include "ui/marks/thumbnails.hpp"
#include "ui/page/labels.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QGridLayout>
#include <QHeaderView>
#include <QMenu>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace latemile::ui {

StepPanel::StepPanel(MarkingFlow& flow, Thumbnails& thumbnails, Keys& keys, QWidget* parent)
    : QWidget(parent), m_flow(flow), m_model(new StepModel(flow, this)), m_keys(keys),
      m_table(buildTable(thumbnails)), m_ask(new QComboBox(this)),
      m_progress(headingLabel({}, this)), m_warning(plainLabel({}, this))
{
    m_warning->setWordWrap(true);
    setState(*m_warning, "doubt");
    m_ask->addItem(tr("Ask for what the chosen measures need"));
    m_ask->addItem(tr("Ask for all nine landmarks"));
    m_ask->setAccessibleName(tr("Landmarks asked for"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_progress);
    column->addWidget(m_ask);
    column->addWidget(m_table, 1);
    column->addWidget(m_warning);
    column->addWidget(buildButtons(keys));
    connect(m_ask, &QComboBox::currentIndexChanged, this, &StepPanel::askChanged);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& index) {
                if (index.isValid() && m_model->placeOf(index) != m_flow.place()) {
                    emit placeWanted(m_model->placeOf(index));
                }
            });
}

QTableView* StepPanel::buildTable(Thumbnails& thumbnails)
{
    auto* table = new QTableView(this);
    table->setModel(m_model);
    table->setItemDelegate(new StepDelegate(m_flow, *m_model, thumbnails, table));
    table->setSelectionMode(QAbstractItemView::SingleSelection);
    table->setShowGrid(false);
    table->setAccessibleName(tr("Step table"));
    table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table->horizontalHeader()->setHighlightSections(false);
    table->verticalHeader()->setDefaultSectionSize(
        table->itemDelegate()->sizeHint({}, {}).height());
    table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table->verticalHeader()->setMinimumWidth(7 * gridStep);
    table->setMinimumWidth(45 * gridStep);
    table->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(table, &QTableView::customContextMenuRequested, this, &StepPanel::showMenu);
    connect(&thumbnails, &Thumbnails::ready, table->viewport(), qOverload<>(&QWidget::update));
    return table;
}

QWidget* StepPanel::buildButtons(Keys& keys)
{
    auto* buttons = new QWidget(this);
    auto* grid = new QGridLayout(buttons);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(gridStep / 2);
    const auto add = [&](const char* id, const QString& text, int row, int column, auto act) {
        auto* button = new QPushButton(buttons);
        keys.label(*button, id, text);
        connect(button, &QPushButton::clicked, this, act);
        grid->addWidget(button, row, column);
        return button;
    };
    add("marks.next_cell", tr("Next cell"), 0, 0, [this] {
        emit nextWanted();
    })->setProperty("rank", "main");
    add("marks.accept", tr("Confirm"), 0, 1, [this] { m_flow.confirm(); });
    add("marks.copy", tr("As step before"), 1, 0, [this] { m_flow.copyFromStepBefore(); });
    add("marks.not_visible", tr("Not visible"), 1, 1, [this] { m_flow.sayNotVisible(); });
    return buttons;
}

void StepPanel::addBelowTable(QWidget& part)
{
    auto* column = dynamic_cast<QVBoxLayout*>(layout());
    column->insertWidget(column->indexOf(m_table) + 1, &part);
}

void StepPanel::showMenu(QPoint at)
{
    const QModelIndex index = m_table->indexAt(at);
    if (!index.isValid()) {
        return;
    }
    m_table->setCurrentIndex(index);
    QMenu menu(this);
    menu.addAction(tr("Accept the whole step\t%1").arg(m_keys.textOf("marks.accept_step")), this,
                   &StepPanel::acceptStepWanted);
    menu.addAction(tr("Confirm the cell\t%1").arg(m_keys.textOf("marks.accept")), this,
                   [this] { m_flow.confirm(); });
    menu.exec(m_table->viewport()->mapToGlobal(at));
}

void StepPanel::setWarning(const QString& sentence)
{
    m_warning->setText(sentence);
    m_warning->setVisible(!sentence.isEmpty());
}

QString StepPanel::warning() const
{
    return m_warning->text();
}

bool StepPanel::asksForAll() const
{
    return m_ask->currentIndex() == 1;
}

void StepPanel::setPlace(const std::optional<StepInstant>& place)
{
    const QModelIndex index = place ? m_model->indexOf(*place) : QModelIndex();
    m_table->selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect);
    if (index.isValid()) {
        m_table->scrollTo(index);
    }
}

void StepPanel::renew()
{
    m_model->renew();
    tellWork();
}

void StepPanel::tellWork()
{
    m_model->refresh();
    std::size_t asked = 0;
    const int steps = m_model->rowCount();
    for (int row = 0; row < steps; ++row) {
        for (int column = 0; column < m_model->columnCount(); ++column) {
            const StepInstant place = m_model->placeOf(m_model->index(row, column));
            // A proposed contact is work too, where no landmark is asked for.
            const bool isWork =
                !m_flow.asked(place).empty() || m_flow.work(place).state != CellState::Confirmed;
            asked += m_flow.frameOf(place) && isWork ? 1U : 0U;
        }
    }
    if (m_flow.asksOnly()) {
        asked = m_flow.countOfOnly(); // some of them may be of columns that are not shown
    }
    m_progress->setText(steps == 0 ? tr("No steps yet")
                                   : tr("Steps: %1, cells to do: %2 of %3")
                                         .arg(steps)
                                         .arg(m_flow.open().size())
                                         .arg(asked));
}

} // namespace latemile::ui
