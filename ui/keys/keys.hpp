// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAction>
#include <QHash>
#include <QKeySequence>
#include <QObject>
#include <QPointer>
#include <QString>

#include <functional>
#include <vector>

class QWidget;

namespace latemile::ui {

/// The keys as they are now: the table, and what the coach changed (kept in the settings).
class Keys final : public QObject {
    Q_OBJECT
public:
    explicit Keys(QObject* parent = nullptr);

    /// An action of `owner` that works while `owner` or something inside it has the focus.
    QAction* action(const char* id, QWidget* owner, std::function<void()> act);
    [[nodiscard]] QKeySequence of(const QString& id) const;
    /// For a button's label: "Next cell  N".
    [[nodiscard]] static QString nameOf(const QString& id);
    /// The other act with this key that would be live at the same time; empty: none.
    [[nodiscard]] QString conflict(const QString& id, const QKeySequence& keys) const;
    void set(const QString& id, const QKeySequence& keys);
    void resetAll();

private:
    void apply(const QString& id);

    QHash<QString, QKeySequence> m_keys;
    QHash<QString, std::vector<QPointer<QAction>>> m_actions;
};

} // namespace latemile::ui
