// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/window/session_pages.hpp"

#include <QMainWindow>

#include <filesystem>
#include <memory>

class QLabel;
class QStackedWidget;

namespace latemile::ui {

class AthletesPage;
class CautionLine;
class NoticeLine;
class Rail;
class SessionBar;
class SidePages;
class TourStrip;

/// The window: the rail of pages at the left, the session's name above, one page at a time.
class MainWindow final : public QMainWindow {
    Q_OBJECT
public:
    MainWindow();
    ~MainWindow() override;

    /// A library, an athlete's folder or a session; a fault is told in the window and returned.
    Outcome<void> open(const std::filesystem::path& folder);
    [[nodiscard]] SessionDocument* session() const { return m_session.get(); }
    [[nodiscard]] Selection& selection() { return m_selection; }
    [[nodiscard]] Keys& keys() { return m_keys; }

    /// By the id of the page list, or "athletes".
    void showPage(const QString& id);
    [[nodiscard]] QString pageId() const;
    [[nodiscard]] QWidget* page() const;
    [[nodiscard]] AthletesPage& athletes() { return *m_athletes; }

    void setNamesHidden(bool hidden);
    [[nodiscard]] bool areNamesHidden() const { return m_selection.areNamesHidden(); }

    /// On a topic by its id; without one on what the page in front is about.
    void showHelp(const QString& topic = {});
    void showPractice();
    /// Of the clip at hand, once it is open.
    void showRepeat();
    void startTour();
    void openSample();
    /// The questions before filming of the open session; an answer can be undone.
    void askBeforeFilming();
    [[nodiscard]] TourStrip& tour() const { return *m_tour; }
    [[nodiscard]] SidePages& sidePages() const { return *m_side; }
    void openByDialog();
    void nextClip();
    /// As a close, without a question: somebody ended the program from outside.
    void endNow();
    void undo();
    void redo();
    void tellFault(const QString& sentence); ///< where the coach looks, till the next page

protected:
    void closeEvent(QCloseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void connectAll();
    void openNewSession(const std::filesystem::path& folder);
    [[nodiscard]] QUndoStack* history() const;
    Outcome<void> openSession(const std::filesystem::path& folder);
    void reopen();
    void answerRecovery(Outcome<void> (Saver::*answer)());
    void takeSession(std::unique_ptr<SessionDocument> session);
    void takeEditedAthlete(const QString& folder);
    void dropSession();
    void showPageAt(int at);
    void chooseFirstClip();

    Keys m_keys;
    std::unique_ptr<SessionDocument> m_session;
    Selection m_selection;
    QString m_folder;
    Rail* m_rail;
    SessionBar* m_bar;
    CautionLine* m_caution;
    NoticeLine* m_notice;
    QLabel* m_fault;
    QStackedWidget* m_stack;
    SessionPages m_pages;
    AthletesPage* m_athletes; ///< first in the rail; needs no session
    SidePages* m_side;
    TourStrip* m_tour;
    int m_at{-1}; ///< in the page list; -1: the athletes
};

} // namespace latemile::ui
