// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/screening.hpp"

#include <QDialog>

#include <vector>

class QCheckBox;
class QLabel;
class QLineEdit;

namespace latemile::ui {

/// The questions before filming. Whatever is ticked, the coach decides; a tick is told at once to
/// mean "a clinician first".
class ScreeningDialog final : public QDialog {
    Q_OBJECT
public:
    explicit ScreeningDialog(const Screening& screening, QWidget* parent = nullptr);
    [[nodiscard]] Screening screening() const;

private:
    QWidget* buildQuestions(const Screening& screening);
    void tell();

    std::vector<QCheckBox*> m_boxes; ///< in the order of redFlags()
    std::vector<std::string> m_unknown;
    QLineEdit* m_note;
    QLabel* m_told;
};

} // namespace latemile::ui
