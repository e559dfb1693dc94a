// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/filming/set_up_card.hpp"

#include <QWidget>

#include <optional>

class QComboBox;
class QGridLayout;
class QLabel;
class QPushButton;

namespace latemile::ui {

class RemarkList;
class SessionDocument;
class SetUpForm;

/// Before filming: how the camera is set up, what that will give, and the card to take along.
class SetUpView final : public QWidget {
    Q_OBJECT
public:
    explicit SetUpView(SessionDocument& session, QWidget* parent = nullptr);

    [[nodiscard]] SetUpForm& form() const { return *m_form; }
    [[nodiscard]] RemarkList& advice() const { return *m_advice; }
    /// Nothing while the set-up cannot be.
    [[nodiscard]] const std::optional<SetUpCard>& card() const { return m_card; }
    bool exportTo(const QString& file);

private:
    QWidget* buildGiven();
    QWidget* buildNumbers();
    QWidget* buildCard();
    void tell();
    void tellNumbers(const std::vector<NamedNumber>& picture,
                     const std::vector<NamedNumber>& errors);
    void askAndExport();
    void print();
    [[nodiscard]] CardPaper paper() const;

    SessionDocument& m_session;
    std::optional<SetUpCard> m_card;
    SetUpForm* m_form{};
    QLabel* m_fault{};
    QWidget* m_numbers{};
    QGridLayout* m_rows{};
    RemarkList* m_advice{};
    QWidget* m_paperView{};
    QComboBox* m_paper{};
    QPushButton* m_print{};
    QPushButton* m_pdf{};
    QLabel* m_told{};
};

} // namespace latemile::ui
