// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QDialog>

#include <functional>

class QDoubleSpinBox;
class QLabel;
class QLineEdit;

namespace latemile::ui {

class ConsentFields;

/// Who an athlete is, the lengths some measures need, and the consent to film.
class AthleteDialog final : public QDialog {
    Q_OBJECT
public:
    /// `take` keeps the athlete; a fault is told and the dialog stays open.
    using Take = std::function<Outcome<void>(const Athlete&)>;
    AthleteDialog(const Athlete& athlete, bool isNew, Take take, QWidget* parent = nullptr);

private:
    void accept() override;

    Athlete m_athlete;
    Take m_take;
    QLineEdit* m_name;
    QLineEdit* m_code;
    QDoubleSpinBox* m_height;
    QDoubleSpinBox* m_leg;
    QDoubleSpinBox* m_mass;
    QLineEdit* m_note;
    ConsentFields* m_consent;
    QLabel* m_told;
};

} // namespace latemile::ui
