// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/athletes/athlete_list.hpp"

#include <QWidget>

class QLabel;
class QStackedWidget;

namespace latemile::ui {

class ElidedLabel;
class RecordWork;
class SessionTable;

/// The library: who is in it, and each athlete's sessions with what is still to do.
class AthletesPage final : public QWidget {
    Q_OBJECT
public:
    explicit AthletesPage(QWidget* parent = nullptr);

    void setLibrary(const std::filesystem::path& library);
    [[nodiscard]] const std::filesystem::path& library() const { return m_library; }
    void setNamesHidden(bool hidden);
    void reload();
    void addNewAthlete();
    void editAthlete();
    void askToDelete(); ///< the chosen athlete, after a question
    void deleteAthlete(const std::filesystem::path& folder);
    void addSample();
    [[nodiscard]] RecordWork& records() const { return *m_records; }
    [[nodiscard]] AthleteList& athletes() const { return *m_athletes; }

signals:
    void sessionWanted(const QString& folder);
    void newSessionWanted(const QString& folder); ///< just begun, or today's again
    void screeningWanted(const QString& folder);
    void tourWanted();
    void athleteEdited(const QString& folder);
    void athleteGoing(const QString& folder); ///< still there, for the window to let go of

protected:
    void showEvent(QShowEvent* event) override;

private:
    QWidget* buildList();
    QWidget* buildAthlete();
    QWidget* buildButtons(QWidget* side);
    QWidget* buildEmpty();
    void fillSessions();
    void fillFacts(const AthleteEntry* entry);
    [[nodiscard]] const SessionEntry* chosenSession();
    void openSession();
    void askBeforeFilming();
    void addSession();
    void askToHandOver();
    void connectRecords();
    void tell(const QString& sentence, const char* state = "bad");

    std::filesystem::path m_library;
    QStackedWidget* m_stack;
    AthleteList* m_athletes;
    ElidedLabel* m_name{};
    QLabel* m_facts{};
    SessionTable* m_table{};
    QLabel* m_told;
    RecordWork* m_records;
};

} // namespace latemile::ui
