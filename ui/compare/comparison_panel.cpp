// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/comparison_panel.hpp"

#include "ui/compare/comparison_table.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QHeaderView>
#include <QTableView>
#include <QVBoxLayout>

#include <utility>

namespace latemile::ui {

ComparisonPanel::ComparisonPanel(QWidget* parent)
    : QWidget(parent), m_model(new ComparisonTable(this)), m_table(new QTableView(this)),
      m_told(plainLabel({}, this)), m_words(plainLabel({}, this))
{
    m_table->setModel(m_model);
    m_table->setShowGrid(false);
    m_table->setWordWrap(true);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setAccessibleName(tr("Comparison"));
    m_table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_told->setWordWrap(true);
    m_words->setWordWrap(true);
    m_words->setMinimumHeight(5 * gridStep);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &ComparisonPanel::tellRow);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, gridStep, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_told);
    column->addWidget(m_table, 1);
    column->addWidget(m_words);
}

QString ComparisonPanel::told() const
{
    return m_told->text();
}

void ComparisonPanel::setComparisons(std::vector<Comparison> comparisons, const QStringList& names,
                                     const std::vector<std::string>& measures, const QString& why)
{
    m_model->setComparisons(std::move(comparisons), names, measures);
    m_told->setText(why.isEmpty() && m_model->rowCount() == 0
                        ? tr("Nothing to compare yet: mark and confirm steps in the clips.")
                        : why);
    m_told->setVisible(!m_told->text().isEmpty());
    layOut(names.size() > 2);
}

/// Beside three clips is no room for the words: they stand below, of the row chosen.
void ComparisonPanel::layOut(bool wordsBelow)
{
    auto* header = m_table->horizontalHeader();
    for (int column = 0; column < m_model->columnCount(); ++column) {
        const bool words = column == m_model->wordsColumn();
        header->setSectionHidden(column, words && wordsBelow);
        header->setSectionResizeMode(column,
                                     words ? QHeaderView::Stretch : QHeaderView::ResizeToContents);
    }
    m_words->setVisible(wordsBelow);
    m_table->selectRow(0);
    tellRow(m_table->currentIndex());
}

void ComparisonPanel::tellRow(const QModelIndex& index)
{
    if (index.isValid()) {
        emit measureChosen(
            fromUtf8(m_model->rows()[static_cast<std::size_t>(index.row())].measure));
    }
    m_words->setText(index.isValid()
                         ? m_model->index(index.row(), m_model->wordsColumn()).data().toString()
                         : QString());
}

} // namespace latemile::ui
