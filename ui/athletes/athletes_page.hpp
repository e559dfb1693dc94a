// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/athletes/library.hpp"

#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QStackedWidget;

namespace latemile::ui {

class SessionTable;

/// The library: who is in it, and each athlete's sessions with what is still to do.
class AthletesPage final : public QWidget {
    Q_OBJECT
public:
    explicit AthletesPage(QWidget* parent = nullptr);

    void setLibrary(const std::filesystem::path& library);
    [[nodiscard]] const std::filesystem::path& library() const { return m_library; }
    void chooseAthlete(const std::filesystem::path& folder);
    void setNamesHidden(bool hidden);
    void reload();
    void addNewAthlete();
    void editAthlete();
    void askToDelete(); ///< the chosen athlete, after a question
    void deleteAthlete(const std::filesystem::path& folder);
    void addSample();
    [[nodiscard]] QListWidget& list() const { return *m_list; }
    [[nodiscard]] QLineEdit& search() const { return *m_search; }
    [[nodiscard]] QComboBox& order() const { return *m_order; }

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
    void fillList();
    void fillSessions();
    void fillFacts(const AthleteEntry* entry);
    [[nodiscard]] const AthleteEntry* chosen() const;
    [[nodiscard]] const SessionEntry* chosenSession();
    [[nodiscard]] QString nameOf(const Athlete& athlete) const;
    void openSession();
    void askBeforeFilming();
    void addSession();
    void tell(const QString& sentence);

    std::filesystem::path m_library;
    std::vector<AthleteEntry> m_athletes;
    bool m_namesHidden{};
    QStackedWidget* m_stack;
    QLineEdit* m_search{};
    QComboBox* m_order{};
    QListWidget* m_list{};
    QLabel* m_name{};
    QLabel* m_facts{};
    SessionTable* m_table{};
    QLabel* m_told;
};

} // namespace latemile::ui
