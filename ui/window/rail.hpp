// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QButtonGroup;
class QVBoxLayout;

namespace latemile::ui {

/// The pages as a column of names.
class Rail final : public QWidget {
    Q_OBJECT
public:
    explicit Rail(QWidget* parent = nullptr);

    void addPage(int at, const QString& name);
    /// At the foot of the rail; open whether there is a session or not.
    void addBelow(int at, const QString& name);
    /// The key that leads there, told beside the name; empty: none.
    void setKey(int at, const QString& key);
    void setPage(int at);
    void setEnabledFrom(int first, bool enabled); ///< pages that need a session

signals:
    void pageWanted(int at);

private:
    QWidget* makeButton(int at, const QString& name);

    int m_firstBelow{1000};
    QButtonGroup* m_group;
    QVBoxLayout* m_column;
};

} // namespace latemile::ui
