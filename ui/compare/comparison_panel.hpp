// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"

#include <QStringList>
#include <QWidget>

#include <string>
#include <vector>

class QLabel;
class QModelIndex;
class QTableView;

namespace latemile::ui {

class ComparisonTable;

/// The table of the comparison and the sentences around it.
class ComparisonPanel final : public QWidget {
    Q_OBJECT
public:
    explicit ComparisonPanel(QWidget* parent = nullptr);

    /// As ComparisonTable::setComparisons. `why` there is none yet, or nothing to tell.
    void setComparisons(std::vector<Comparison> comparisons, const QStringList& names,
                        const std::vector<std::string>& measures, const QString& why);
    [[nodiscard]] const ComparisonTable& model() const { return *m_model; }
    [[nodiscard]] QString told() const;

signals:
    void measureChosen(const QString& id);

private:
    void layOut(bool wordsBelow);
    void tellRow(const QModelIndex& index);

    ComparisonTable* m_model;
    QTableView* m_table;
    QLabel* m_told;
    QLabel* m_words; ///< of the row chosen, where the table has no room for them
};

} // namespace latemile::ui
