// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>

class QStackedWidget;
class QUndoStack;

namespace latemile::ui {

class HelpPage;
class Keys;
class ClipDocument;
class PracticePage;
class RepeatPage;
class SessionDocument;

/// The pages beside the work, made when first asked for: the help, the practice and the blind
/// repeat.
class SidePages final : public QObject {
    Q_OBJECT
public:
    SidePages(QStackedWidget& stack, Keys& keys, QObject* parent);

    /// On a topic by its id; without one on what the page in front is about.
    void showHelp(const QString& topic);
    void showPractice();
    /// Of an open clip of the session at hand; endRepeat before either goes.
    void showRepeat(SessionDocument& session, ClipDocument& clip);
    void endRepeat();
    [[nodiscard]] RepeatPage* repeat() const { return m_repeat; }
    [[nodiscard]] HelpPage* help() const { return m_help; }
    [[nodiscard]] PracticePage* practice() const { return m_practice; }
    /// Whether a page with marks of its own is in front, and its history.
    [[nodiscard]] bool hasOwnMarks() const;
    [[nodiscard]] QUndoStack* ownHistory() const;

signals:
    void left(); ///< back to the work
    void keysWanted();

private:
    void endPractice();

    QStackedWidget& m_stack;
    Keys& m_keys;
    HelpPage* m_help{};
    PracticePage* m_practice{};
    RepeatPage* m_repeat{};
};

} // namespace latemile::ui
