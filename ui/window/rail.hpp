// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QButtonGroup;

namespace latemile::ui {

class Keys;

/// The pages as a column of names, each with its key in its tool tip: the athletes, those of a
/// session in the order of the page list, and at the foot the help.
class Rail final : public QWidget {
    Q_OBJECT
public:
    static constexpr int athletes = 0; ///< the session's pages follow, from 1 on
    static constexpr int help = 1000;

    explicit Rail(const Keys& keys, QWidget* parent = nullptr);

    void setPage(int at);
    void setSessionOpen(bool open); ///< without one its pages are closed

signals:
    void pageWanted(int at);

private:
    QWidget* makeButton(int at, const QString& name);
    void tellKeys();
    void tellKey(int at, const QString& id);

    const Keys& m_keys;
    QButtonGroup* m_group;
};

} // namespace latemile::ui
