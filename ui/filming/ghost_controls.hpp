// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QCheckBox;
class QLabel;
class QSlider;

namespace latemile::ui {

class LastVisitGhost;
class SceneTool;

/// The last visit's first frame over this visit's picture: on or off, and how strong.
class GhostControls final : public QWidget {
    Q_OBJECT
public:
    GhostControls(SceneTool& tool, LastVisitGhost& ghost, QWidget* parent = nullptr);
    [[nodiscard]] QCheckBox& box() const { return *m_box; }
    [[nodiscard]] QSlider& opacity() const { return *m_opacity; }
    void tell();

signals:
    void wanted(bool wanted);

private:
    SceneTool& m_tool;
    LastVisitGhost& m_ghost;
    QCheckBox* m_box;
    QSlider* m_opacity;
    QLabel* m_told;
};

} // namespace latemile::ui
