// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"
#include "ui/sheet/sheet_style.hpp"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;

namespace latemile::ui {

/// The coach's own words and how the sheet prints. Note and coach belong to the session; contact,
/// logo and print are the coach's for all sheets and kept in the settings.
class PageOptions final : public QWidget {
    Q_OBJECT
public:
    explicit PageOptions(const PageContext& context, QWidget* parent = nullptr);
    [[nodiscard]] SheetStyle style() const;
    /// Keeps a copy of the picture as the logo of all sheets; a fault is told on the page.
    bool setLogo(const QString& file);
    void removeLogo();

signals:
    void styleChanged();

private:
    void build();
    void connectAll();
    void recall();
    void remember();
    void tellAbout();
    void takeWords();
    void askForLogo();
    void tellLogo();

    PageContext m_context;
    QPlainTextEdit* m_note;
    QLineEdit* m_coach;
    QLineEdit* m_contact;
    QPushButton* m_choose;
    QPushButton* m_remove;
    QLabel* m_logoTold;
    QImage m_logo;
    QComboBox* m_paper;
    QCheckBox* m_large;
    QCheckBox* m_grey;
    QCheckBox* m_inches;
    bool m_filling{};
};

} // namespace latemile::ui
