// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>

class QStackedWidget;
class QUndoStack;

namespace latemile::ui {

class HelpPage;
class Keys;
class PracticePage;

/// The pages beside the work, made when first asked for: the help, and the practice.
class SidePages final : public QObject {
    Q_OBJECT
public:
    SidePages(QStackedWidget& stack, Keys& keys, QObject* parent);

    /// On a topic by its id; without one on what the page in front is about.
    void showHelp(const QString& topic);
    void showPractice();
    [[nodiscard]] HelpPage* help() const { return m_help; }
    [[nodiscard]] PracticePage* practice() const { return m_practice; }
    /// Of the practice while it is in front; else nullptr.
    [[nodiscard]] QUndoStack* practiceHistory() const;

signals:
    void left(); ///< back to the work
    void keysWanted();

private:
    void endPractice();

    QStackedWidget& m_stack;
    Keys& m_keys;
    HelpPage* m_help{};
    PracticePage* m_practice{};
};

} // namespace latemile::ui
