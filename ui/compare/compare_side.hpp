// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/compare/compare_tool.hpp"

#include "core/marks/steps.hpp"

#include <QPointer>
#include <QWidget>

#include <optional>
#include <utility>

class QComboBox;
class QLabel;

namespace latemile::ui {

class AthleteClips;
class FrameView;
class InkSwatch;
class Player;

/// One of the pictures set against each other: a step of a clip, cut to the athlete at a scale all
/// sides share.
class CompareSide final : public QWidget {
    Q_OBJECT
public:
    explicit CompareSide(QWidget* parent = nullptr);
    ~CompareSide() override;

    /// Fills the chooser; the clip chosen stays where it is still there.
    void offer(const AthleteClips& clips);
    void choose(const QString& key);
    [[nodiscard]] QString chosen() const;
    void setClip(ClipDocument* clip, const FigureInk& ink);
    [[nodiscard]] ClipDocument* clip() const { return m_clip; }
    [[nodiscard]] const Step* step() const;
    void chooseStep(StepNumber number);
    void showFrame(std::optional<FrameNumber> frame);
    /// What is on show here, for another side's ghost.
    [[nodiscard]] std::optional<CompareTool::Shown> shown() const;
    void setGhost(const std::optional<CompareTool::Shown>& ghost, GhostAt at);

    /// What is in sight, in centimetres around the middle of this side's cut: so one side follows
    /// the other's zoom whatever the clips' own scales.
    [[nodiscard]] std::optional<QRectF> sightInCm() const;
    void setSightInCm(const QRectF& sight);

signals:
    void clipChosen();
    void stepChosen();
    void movedByHand();

private:
    void fillSteps();
    void cutToAthlete();
    void tellPlace();
    [[nodiscard]] std::optional<double> pixelsPerCm() const;

    QPointer<ClipDocument> m_clip;
    FigureInk m_ink;
    std::optional<FrameNumber> m_frame;
    std::optional<std::pair<const ClipDocument*, StepNumber>> m_cutFor;
    QRectF m_cut; ///< empty: the whole picture
    CompareTool m_tool;
    Player* m_player;
    FrameView* m_view;
    InkSwatch* m_swatch;
    QComboBox* m_clips;
    QComboBox* m_steps;
    QLabel* m_place;
};

} // namespace latemile::ui
