// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_details.hpp"

#include <QPointer>
#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;

namespace latemile::ui {

class ClipDocument;

/// What the coach says about the run in a clip: each field one undoable edit.
class ClipForm final : public QWidget {
    Q_OBJECT
public:
    explicit ClipForm(QWidget* parent = nullptr);
    void setClip(ClipDocument* clip);
    /// Nothing left that only today knows: exertion and pain.
    [[nodiscard]] bool isComplete() const;

signals:
    void changed();

private:
    void build();
    void connectFields();
    void fill();
    void takeDetails();
    void takeSpeed();

    QPointer<ClipDocument> m_clip;
    bool m_filling{};
    int m_gesture{};
    QComboBox* m_condition;
    QDoubleSpinBox* m_minute;
    QLineEdit* m_speed;
    QComboBox* m_unit;
    QLabel* m_speedTold;
    QDoubleSpinBox* m_incline;
    QLineEdit* m_shoes;
    QDoubleSpinBox* m_exertion;
    QComboBox* m_pain;
    QLabel* m_caution;
};

} // namespace latemile::ui
