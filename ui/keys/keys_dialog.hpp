// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>

class QKeySequenceEdit;
class QLabel;
class QTableWidget;

namespace latemile::ui {

class Keys;

/// The list of all keys. The key of the row at hand can be set to another; a conflict is told and
/// nothing changed.
class KeysDialog final : public QDialog {
    Q_OBJECT
public:
    explicit KeysDialog(Keys& keys, QWidget* parent = nullptr);

private:
    void fill();
    void showRow();
    void takeKey();

    Keys& m_keys;
    QTableWidget* m_table;
    QKeySequenceEdit* m_edit;
    QLabel* m_told;
};

} // namespace latemile::ui
