// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/place_name.hpp"

#include <QAbstractTableModel>

#include <vector>

namespace latemile::ui {

class MarkingFlow;

/// The step table: a row a step, a column an instant. The text of a cell is what a screen reader
/// says; the delegate paints it.
class StepModel final : public QAbstractTableModel {
    Q_OBJECT
public:
    explicit StepModel(MarkingFlow& flow, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

    [[nodiscard]] StepInstant placeOf(const QModelIndex& index) const;
    [[nodiscard]] QModelIndex indexOf(const StepInstant& place) const;
    void renew(); ///< steps or columns changed
    void refresh();

private:
    [[nodiscard]] QString cellText(const StepInstant& place) const;

    MarkingFlow& m_flow;
    std::vector<Instant> m_columns;
    int m_rows{};
};

/// "look at shank +13 %" where a bone breaks its length, else "confirmed", "2 of 3 placed",
/// "followed, ± 1.4 px",
/// "proposed", "empty", "nothing to mark".
[[nodiscard]] QString stateText(const MarkingFlow& flow, const StepInstant& place);

} // namespace latemile::ui
