// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/filming/scene_grips.hpp"

#include <QPointer>
#include <QWidget>

class QComboBox;
class QLabel;
class QPushButton;

namespace latemile::ui {

class ClipDocument;
class GhostControls;
class LastVisitGhost;
class ScalePart;
class SceneLoan;
class SceneTool;

/// The camera's side and the lines that turn pixels into centimetres: drawn, or taken over from
/// another clip of the same untouched tripod; and the last visit's picture to frame by.
class ScenePart final : public QWidget {
    Q_OBJECT
public:
    ScenePart(SceneTool& tool, SceneLoan& loan, LastVisitGhost& ghost, QWidget* parent = nullptr);
    void setClip(ClipDocument* clip);
    /// Begins to draw; the hint says how.
    void draw(SceneLine line);
    [[nodiscard]] GhostControls& ghost() const { return *m_ghost; }

private:
    void build(LastVisitGhost& ghost);
    QWidget* buildCamera();
    QWidget* buildUpright();
    QWidget* buildLoan();
    void fill();
    void tellLoan();
    void takeView();
    void remove(SceneLine line);
    void push(const Scene& scene, const QString& name);

    SceneTool& m_tool;
    SceneLoan& m_loan;
    QPointer<ClipDocument> m_clip;
    bool m_filling{};
    int m_gesture{};
    QComboBox* m_view{};
    QComboBox* m_travel{};
    QLabel* m_fault{};
    QLabel* m_hint{};
    ScalePart* m_scale{};
    GhostControls* m_ghost{};
    QPushButton* m_removePlumb{};
    QPushButton* m_removeGround{};
    QLabel* m_loanTold{};
    QPushButton* m_compare{};
    QPushButton* m_carry{};
};

} // namespace latemile::ui
