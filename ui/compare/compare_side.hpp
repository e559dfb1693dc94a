// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/compare/compare_tool.hpp"

#include "core/marks/steps.hpp"

#include <QPointer>
#include <QWidget>

#include <optional>

class QComboBox;
class QLabel;

namespace latemile::ui {

class FrameView;
class Player;

/// One of the two pictures: a step of a clip, cut to the athlete at a scale both sides share.
class CompareSide final : public QWidget {
    Q_OBJECT
public:
    explicit CompareSide(QWidget* parent = nullptr);
    ~CompareSide() override;

    void setClip(ClipDocument* clip);
    [[nodiscard]] ClipDocument* clip() const { return m_clip; }
    [[nodiscard]] const Step* step() const;
    [[nodiscard]] std::optional<FrameNumber> frame() const { return m_frame; }
    void chooseStep(StepNumber number);
    void showFrame(std::optional<FrameNumber> frame);
    void setGhost(std::optional<CompareTool::Shown> ghost);

signals:
    void stepChosen();

private:
    void fillSteps();
    void cutToAthlete();

    QPointer<ClipDocument> m_clip;
    std::optional<FrameNumber> m_frame;
    CompareTool m_tool;
    Player* m_player;
    FrameView* m_view;
    QLabel* m_name;
    QComboBox* m_steps;
    QLabel* m_place;
};

} // namespace latemile::ui
