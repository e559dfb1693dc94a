// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/repeat_view.hpp"

#include "core/measures/measure.hpp"
#include "ui/page/labels.hpp"
#include "ui/practice/agreement_plot.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <qcustomplot.h>

#include <QHeaderView>
#include <QSplitter>
#include <QTableWidget>
#include <QVBoxLayout>

namespace latemile::ui {
namespace {

constexpr int clickDecimals = 2;

QTableWidget* tableOf(const QStringList& columns, const QString& name, QWidget* parent)
{
    auto* table = new QTableWidget(0, static_cast<int>(columns.size()), parent);
    table->setHorizontalHeaderLabels(columns);
    table->setAccessibleName(name);
    table->setShowGrid(false);
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setSelectionMode(QAbstractItemView::SingleSelection);
    table->setTabKeyNavigation(false);
    table->verticalHeader()->hide();
    table->verticalHeader()->setDefaultSectionSize(4 * gridStep);
    table->horizontalHeader()->setHighlightSections(false);
    table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    return table;
}

void setRow(QTableWidget& table, int row, const QStringList& cells)
{
    for (int column = 0; column < cells.size(); ++column) {
        auto* item = new QTableWidgetItem(cells[column]);
        item->setTextAlignment((column == 0 ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
        table.setItem(row, column, item);
    }
}

QString iccText(const std::optional<WithInterval>& icc)
{
    return icc ? QStringLiteral("%1 (%2 to %3)")
                     .arg(numberText(icc->value, 2), numberText(icc->low, 2),
                          numberText(icc->high, 2))
               : QStringLiteral("–");
}

} // namespace

RepeatView::RepeatView(QWidget* parent)
    : QWidget(parent), m_landmarks(tableOf({tr("Landmark"), tr("Marks"), tr("Across, px"),
                                            tr("Down, px"), tr("One click, cm"), tr("Default, cm")},
                                           tr("Error of a click by landmark"), this)),
      m_measures(tableOf({tr("Measure"), tr("Steps"), tr("Mean difference"), tr("Typical error"),
                          tr("Smallest real change"), tr("ICC(2,1)"), tr("ICC(3,1)")},
                         tr("Repeatability by measure"), this)),
      m_caption(quietLabel({}, this)), m_plot(new QCustomPlot(this))
{
    m_measures->horizontalHeaderItem(4)->setToolTip(
        tr("MDC95: two readings of one step that differ by more differ for a reason other than the "
           "clicks."));
    m_caption->setWordWrap(true);
    m_plot->setMinimumHeight(22 * gridStep);
    m_plot->setAccessibleName(tr("Differences of the two markings against their means"));
    auto* left = new QWidget(this);
    auto* tables = new QVBoxLayout(left);
    tables->setContentsMargins(0, 0, 0, 0);
    tables->setSpacing(gridStep);
    tables->addWidget(headingLabel(tr("How well each landmark is found again"), left));
    tables->addWidget(m_landmarks, 2);
    tables->addWidget(headingLabel(tr("What that does to the readings"), left));
    tables->addWidget(m_measures, 3);
    auto* right = new QWidget(this);
    auto* plot = new QVBoxLayout(right);
    plot->setContentsMargins(0, 0, 0, 0);
    plot->setSpacing(gridStep);
    plot->addWidget(headingLabel(tr("Difference against mean"), right));
    plot->addWidget(m_plot, 1);
    plot->addWidget(m_caption);
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->setHandleWidth(2 * gridStep);
    split->addWidget(left);
    split->addWidget(right);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setChildrenCollapsible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(split);
    connect(m_measures, &QTableWidget::currentCellChanged, this, &RepeatView::drawChosen);
}

void RepeatView::setResult(RepeatResult result)
{
    m_result = std::move(result);
    fillLandmarks();
    fillMeasures();
}

void RepeatView::fillLandmarks()
{
    m_landmarks->setRowCount(static_cast<int>(m_result->landmarks.size()));
    int row = 0;
    for (const LandmarkRepeat& repeat : m_result->landmarks) {
        setRow(*m_landmarks, row++,
               {capital(wordFor(repeat.landmark)), QString::number(repeat.across.n),
                numberText(repeat.across.withinTargetSd, clickDecimals),
                numberText(repeat.down.withinTargetSd, clickDecimals),
                numberText(repeat.clickError(), clickDecimals),
                numberText(defaultClickError(repeat.landmark), clickDecimals)});
    }
    m_landmarks->resizeColumnsToContents();
}

void RepeatView::fillMeasures()
{
    m_measures->setRowCount(static_cast<int>(m_result->measures.size()));
    int row = 0;
    for (const MeasureRepeat& repeat : m_result->measures) {
        const Measure& measure = *findMeasure(repeat.measure);
        setRow(*m_measures, row++,
               {fromUtf8(measure.name), QString::number(repeat.agreement.n),
                valueText(repeat.agreement.bias.value, measure),
                valueText(repeat.typicalError, measure), valueText(repeat.mdc95, measure),
                iccText(repeat.icc21), iccText(repeat.icc31)});
    }
    m_measures->resizeColumnsToContents();
    if (row > 0) {
        m_measures->setCurrentCell(0, 0);
    }
    drawChosen();
}

void RepeatView::drawChosen()
{
    const int row = m_measures->currentRow();
    const bool isThere = m_result && row >= 0 && row < static_cast<int>(m_result->measures.size());
    m_plot->setVisible(isThere);
    if (!isThere) {
        m_caption->setText(tr("No measure could be read from both markings of three steps: mark "
                              "more instants again."));
        return;
    }
    const MeasureRepeat& repeat = m_result->measures[static_cast<std::size_t>(row)];
    drawAgreement(*m_plot, repeat, tokensOf(palette()));
    m_caption->setText(tr("%1: a circle a step. Dashed: the limits that hold 95 % of the "
                          "differences (Bland and Altman 1986).")
                           .arg(fromUtf8(findMeasure(repeat.measure)->name)));
}

void RepeatView::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && m_result) {
        drawChosen();
    }
}

} // namespace latemile::ui
