// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/rhythm.hpp"
#include "ui/marks/ruler_scale.hpp"

#include <QPointer>
#include <QWidget>

#include <optional>
#include <vector>

namespace latemile::ui {

class ClipDocument;
class Player;

/// Time from left to right, a row a foot, a bar from contact to toe-off. Dragging free ground
/// scrubs; the ends of a bar are dragged to the frame they belong to; the wheel shows less time.
class StanceRuler final : public QWidget {
    Q_OBJECT
public:
    explicit StanceRuler(Player& player, QWidget* parent = nullptr);

    void setClip(ClipDocument* clip);
    /// The step whose bar is framed; none: no step.
    void setChosenStep(std::optional<StepNumber> step);
    /// Shown at their places as a sign; the sentence is told under the pointer.
    void setFaults(std::vector<RhythmFault> faults);
    [[nodiscard]] const std::vector<RhythmFault>& faults() const { return m_faults; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, sizeHint().height()}; }

signals:
    void stepPressed(latemile::StepNumber step);
    void acceptWanted(latemile::StepNumber step); ///< a proposal is right
    void rejectWanted(latemile::StepNumber step); ///< it is not

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

private:
    /// An end of a bar: what a drag takes hold of.
    struct Event {
        std::size_t stance{};
        bool isToeOff{};
    };
    [[nodiscard]] std::optional<Event> eventAt(QPointF at) const;
    [[nodiscard]] QPointF signOf(const RhythmFault& fault) const;
    [[nodiscard]] const RhythmFault* faultAt(QPointF at) const;
    [[nodiscard]] std::optional<StepNumber> proposalAt(QPointF at) const;
    [[nodiscard]] QString toldAt(QPointF at) const;
    [[nodiscard]] QRectF barOf(const Stance& stance) const;
    [[nodiscard]] double rowTop(Foot foot) const;
    [[nodiscard]] bool isUsable() const;
    [[nodiscard]] Seconds end() const;
    void showAll();
    void keepPlayheadInSight();
    void scrubTo(double x);
    void dragEvent(double x);
    void paintTicks(QPainter& painter) const;
    void paintRow(QPainter& painter, Foot foot) const;
    void paintStance(QPainter& painter, std::size_t at) const;
    void paintPlayhead(QPainter& painter) const;
    void paintFault(QPainter& painter, const RhythmFault& fault) const;

    Player& m_player;
    QPointer<ClipDocument> m_clip;
    RulerScale m_scale;
    std::optional<StepNumber> m_chosen;
    std::vector<RhythmFault> m_faults;
    std::optional<Event> m_held;
    std::optional<FrameNumber> m_heldTo;
    bool m_scrubbing{};
};

} // namespace latemile::ui
