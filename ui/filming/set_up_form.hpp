// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/camera_set_up.hpp"

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QSpinBox;

namespace latemile::ui {

/// How the camera will be set up, as a coach can know it before filming.
class SetUpForm final : public QWidget {
    Q_OBJECT
public:
    explicit SetUpForm(QWidget* parent = nullptr);

    [[nodiscard]] CameraSetUp setUp() const;
    void setSetUp(const CameraSetUp& setUp);

signals:
    void changed();

private:
    void build();
    void takeFieldBy();

    QDoubleSpinBox* m_distance;
    QComboBox* m_fieldBy;
    QDoubleSpinBox* m_field;
    QComboBox* m_picture;
    QDoubleSpinBox* m_rate;
    QSpinBox* m_shutter;
    QComboBox* m_ground;
    QDoubleSpinBox* m_speed;
    QDoubleSpinBox* m_pole;
    QDoubleSpinBox* m_stature;
};

} // namespace latemile::ui
