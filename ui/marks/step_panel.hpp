// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/place_name.hpp"

#include <QWidget>

#include <optional>

class QComboBox;
class QHBoxLayout;
class QLabel;
class QTableView;

namespace latemile::ui {

class Keys;
class MarkingFlow;
class StepModel;
class Thumbnails;

/// The step table with what is asked for above it and the acts on a cell below.
class StepPanel final : public QWidget {
    Q_OBJECT
public:
    StepPanel(MarkingFlow& flow, Thumbnails& thumbnails, Keys& keys, QWidget* parent = nullptr);

    [[nodiscard]] bool asksForAll() const;
    /// Between the table and the acts on a cell.
    void addBelowTable(QWidget& part);
    void setPlace(const std::optional<StepInstant>& place);
    void renew();    ///< steps or columns changed
    void tellWork(); ///< marks changed
    /// What contradicts itself; empty: nothing. Here it may take what room it needs, beside the
    /// picture it would move it under the pointer.
    void setWarning(const QString& sentence);
    [[nodiscard]] QString warning() const;

signals:
    void placeWanted(const latemile::ui::StepInstant& place);
    void nextWanted();
    void acceptStepWanted(); ///< the row at hand
    void askChanged();

private:
    QTableView* buildTable(Thumbnails& thumbnails);
    QWidget* buildButtons(Keys& keys);
    void showMenu(QPoint at);

    MarkingFlow& m_flow;
    StepModel* m_model;
    Keys& m_keys;
    QTableView* m_table;
    QComboBox* m_ask;
    QLabel* m_progress;
    QLabel* m_warning;
};

} // namespace latemile::ui
