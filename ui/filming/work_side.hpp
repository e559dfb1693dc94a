// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include <vector>

class QButtonGroup;
class QStackedWidget;
class QToolButton;

namespace latemile::ui {

/// The parts of a clip's description in the order of the work, one at a time; each part's button
/// shows by a sign whether it is in order.
class WorkSide final : public QWidget {
    Q_OBJECT
public:
    explicit WorkSide(QWidget* parent = nullptr);

    /// In order; `part` becomes a child.
    void addPart(const QString& name, QWidget* part);
    void setPart(int at);
    [[nodiscard]] int part() const;
    void nextPart();
    /// A sign after the part's name; empty: none.
    void setSign(int at, const QString& sign);

private:
    struct Entry {
        QString name;
        QToolButton* button{};
    };
    std::vector<Entry> m_entries;
    QButtonGroup* m_group;
    QWidget* m_buttons;
    QStackedWidget* m_stack;
};

} // namespace latemile::ui
