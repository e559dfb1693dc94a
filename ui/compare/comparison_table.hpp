// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"

#include <QAbstractTableModel>

namespace latemile::ui {

/// The comparison measure by measure: both means, the change with its half-width, the verdict and
/// why.
class ComparisonTable final : public QAbstractTableModel {
    Q_OBJECT
public:
    using QAbstractTableModel::QAbstractTableModel;
    void setComparison(Comparison comparison);
    [[nodiscard]] const Comparison& comparison() const { return m_comparison; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

private:
    Comparison m_comparison;
};

} // namespace latemile::ui
