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

class QAbstractButton;
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
    [[nodiscard]] QString textOf(const char* id) const; ///< the key as people read it: "Ctrl+Z"
    [[nodiscard]] static QString nameOf(const QString& id);
    /// Writes the key behind the button's text ("Next cell   N", without a text into the tool tip
    /// alone) and keeps it right when the coach changes the key.
    void label(QAbstractButton& button, const char* id, const QString& text = {});
    /// The other act with this key that would be live at the same time; empty: none.
    [[nodiscard]] QString conflict(const QString& id, const QKeySequence& keys) const;
    void set(const QString& id, const QKeySequence& keys);
    void resetAll();

signals:
    void changed(const QString& id);

private:
    void apply(const QString& id);

    QHash<QString, QKeySequence> m_keys;
    QHash<QString, std::vector<QPointer<QAction>>> m_actions;
};

} // namespace latemile::ui
