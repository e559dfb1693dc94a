// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/refilms.hpp"

#include <QAbstractTableModel>

#include <string>
#include <vector>

namespace latemile::ui {

/// The courses as a table: a row a measure and condition, a column a filming day, and what changed
/// since the day before and since when it has held.
class RefilmsTable final : public QAbstractTableModel {
    Q_OBJECT
public:
    using QAbstractTableModel::QAbstractTableModel;

    struct Row {
        Course course;
        bool fatigued{};
    };
    /// `own`: the coach's own measures among the rows.
    void setRows(std::vector<Row> rows, std::vector<std::string> dates, const OwnMeasures& own);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index,
                                int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role = Qt::DisplayRole) const override;

private:
    [[nodiscard]] const Measure& measureOf(const Row& row) const;
    [[nodiscard]] QString cellText(const Row& row, int column) const;
    [[nodiscard]] QString dayText(const Row& row, const std::string& date) const;

    std::vector<Row> m_rows;
    std::vector<std::string> m_dates;
    OwnMeasures m_own;
};

} // namespace latemile::ui
