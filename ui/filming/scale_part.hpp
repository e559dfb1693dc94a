// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/filming/scene_grips.hpp"

#include <QPointer>
#include <QWidget>

class QDoubleSpinBox;
class QLabel;
class QMenu;
class QPushButton;
class QVBoxLayout;

namespace latemile::ui {

class ClipDocument;
class SceneTool;

/// Where the centimetres come from: scale lines with their lengths, four corners with their sides,
/// or nothing, which leaves angles and times.
class ScalePart final : public QWidget {
    Q_OBJECT
public:
    explicit ScalePart(SceneTool& tool, QWidget* parent = nullptr);
    void setClip(ClipDocument* clip);

signals:
    void drawWanted(latemile::ui::SceneLine line);

private:
    void build();
    QWidget* buildCorners();
    QWidget* buildButtons();
    void fill();
    void fillLengths();
    void addLengthRow(std::size_t index);
    void fillCorners();
    void fillCommonLengths(QMenu& menu, std::size_t index);
    void takeLength(std::size_t index, double cm);
    void takeCorners();
    void removeLine(std::size_t index);
    void removeCorners();
    void removeScale();
    void push(const Scene& scene, const QString& name);

    SceneTool& m_tool;
    QPointer<ClipDocument> m_clip;
    bool m_filling{};
    int m_gesture{};
    QLabel* m_noScale{};
    QVBoxLayout* m_lengths{};
    std::vector<QDoubleSpinBox*> m_lengthFields;
    QWidget* m_corners{};
    QDoubleSpinBox* m_cornersWide{};
    QDoubleSpinBox* m_cornersHigh{};
    QPushButton* m_anglesOnly{};
};

} // namespace latemile::ui
