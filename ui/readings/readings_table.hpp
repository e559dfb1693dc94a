// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/left_right.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"
#include "ui/readings/measure_order.hpp"

#include <QAbstractTableModel>

#include <optional>
#include <vector>

namespace latemile::ui {

/// Measures as rows in the coach's order; as columns the means of left, right and both feet and
/// left against right, then a column a step. Values are shown to the place their error deserves.
class ReadingsTable final : public QAbstractTableModel {
    Q_OBJECT
public:
    static constexpr int meanColumns = 4;
    explicit ReadingsTable(QObject* parent = nullptr);

    void setReadings(const std::optional<Readings>& readings);
    void setOrder(const MeasureOrder& order); ///< and remembers it
    [[nodiscard]] const MeasureOrder& order() const { return m_order; }
    /// The coach's own measures among the readings.
    [[nodiscard]] OwnMeasures own() const { return m_readings ? m_readings->own : OwnMeasures(); }
    [[nodiscard]] const Measure* measureAt(int row) const;
    /// The reading of a step's cell, or nothing where there is none.
    [[nodiscard]] const Reading* readingAt(const QModelIndex& index) const;
    [[nodiscard]] const Summary* summaryAt(const QModelIndex& index) const;
    /// The confirmed step whose value lies nearest to a mean; null where none is listed.
    [[nodiscard]] const Reading* nearestTo(const Summary& mean) const;
    /// Of a timing's cell in the column of left against right.
    [[nodiscard]] std::optional<LeftRight> leftRightAt(const QModelIndex& index) const;

    /// The cell in words; empty where there is nothing to say.
    [[nodiscard]] QString told(const QModelIndex& index) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

private:
    void chooseRows();
    [[nodiscard]] QString cellText(const QModelIndex& index) const;

    MeasureOrder m_order;
    std::optional<Readings> m_readings;
    std::vector<const Measure*> m_rows; ///< measures with at least one value; the own ones are of
                                        ///< m_readings
};

} // namespace latemile::ui
