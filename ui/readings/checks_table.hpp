// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"

#include <QWidget>

#include <vector>

class QGridLayout;
class QLabel;

namespace latemile::ui {

/// Every check of the scene and the marking: a sign, its state as a word, and the sentence; what is
/// bad first.
class ChecksTable final : public QWidget {
    Q_OBJECT
public:
    explicit ChecksTable(QWidget* parent = nullptr);
    void setChecks(std::vector<Check> checks);

private:
    void addRow(int row, const Check& check);

    QLabel* m_heading;
    QWidget* m_inner;
    QGridLayout* m_grid{};
    int m_rows{};
};

} // namespace latemile::ui
