// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/readings/measure_order.hpp"

#include <QDialog>

class QListWidget;

namespace latemile::ui {

/// The measures to tick, drag or move by the buttons; what stands in it when it closes is the new
/// order.
class MeasuresDialog final : public QDialog {
    Q_OBJECT
public:
    /// `own`: the coach's own measures to be listed too.
    MeasuresDialog(MeasureOrder order, OwnMeasures own, QWidget* parent = nullptr);

    [[nodiscard]] MeasureOrder order() const;
    [[nodiscard]] QListWidget& list() const { return *m_list; }

private:
    void fill(const MeasureOrder& order);
    void move(int way);

    const OwnMeasures m_own;
    QListWidget* m_list;
};

} // namespace latemile::ui
