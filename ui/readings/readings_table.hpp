// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <QAbstractTableModel>

#include <optional>
#include <vector>

namespace latemile::ui {

/// Measures as rows; as columns the means of left, right and both feet, then a column a step.
class ReadingsTable final : public QAbstractTableModel {
    Q_OBJECT
public:
    static constexpr int meanColumns = 3;
    using QAbstractTableModel::QAbstractTableModel;

    void setReadings(const std::optional<Readings>& readings);
    [[nodiscard]] const Measure* measureAt(int row) const;
    /// The reading of a step's cell, or nothing where there is none.
    [[nodiscard]] const Reading* readingAt(const QModelIndex& index) const;
    [[nodiscard]] const Summary* summaryAt(const QModelIndex& index) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

private:
    [[nodiscard]] QString cellText(const QModelIndex& index) const;
    [[nodiscard]] QString toolTip(const QModelIndex& index) const;

    std::optional<Readings> m_readings;
    std::vector<const Measure*> m_rows; ///< measures with at least one value
};

} // namespace latemile::ui
