// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/mark_tool.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/picture/figure_painter.hpp"
#include "ui/text/words.hpp"

#include <QPainter>

namespace latemile::ui {
namespace {

constexpr double reach = 9.0;          ///< logical pixels around a mark that take hold of it
constexpr double reachInPlacing = 5.0; ///< less, so that a neighbour can be placed close by

std::optional<MarkKey> markNear(const Marking& marking, FrameNumber frame, PixelPoint at,
                                const PictureMap& map, double within)
{
    std::optional<MarkKey> nearest;
    double best = within;
    for (auto it = marking.marks.lower_bound({frame, BodySide{}, Landmark{}});
         it != marking.marks.end() && it->first.frame == frame; ++it) {
        const double away = map.distance(it->second.at, at);
        if (away <= best) {
            best = away;
            nearest = it->first;
        }
    }
    return nearest;
}

} // namespace

void MarkTool::paint(QPainter& painter, const PictureMap& map) const
{
    const ClipDocument* clip = m_flow.clip();
    if (clip == nullptr) {
        return;
    }
    paintFigure(painter, map, clip->marking(), m_frame, inkOf(clip->clip().condition));
    if (const auto& chosen = m_flow.chosen(); chosen && chosen->frame == m_frame) {
        if (const Mark* mark = clip->marking().find(*chosen)) {
            const QPointF at = map.toDevice(mark->at);
            drawChosenRing(painter, at, map.devicePixels);
            drawPlate(painter, wordFor(chosen->landmark), at + QPointF(18, 0) * map.devicePixels,
                      map.devicePixels);
        }
    }
}

bool MarkTool::press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers)
{
    ClipDocument* clip = m_flow.clip();
    if (clip == nullptr) {
        return false;
    }
    const bool placing = m_placing && m_flow.pending().has_value();
    const auto held = markNear(clip->marking(), m_frame, at, map, placing ? reachInPlacing : reach);
    if (held) {
        m_flow.choose(held);
        const PixelPoint mark = clip->marking().find(*held)->at;
        m_grip = {mark.u - at.u, mark.v - at.v};
        m_dragging = true;
        return true;
    }
    if (placing) {
        m_flow.placePending(at);
        return true;
    }
    m_flow.choose(std::nullopt);
    return false;
}

void MarkTool::drag(PixelPoint at)
{
    if (m_dragging) {
        m_flow.moveChosen({at.u + m_grip.u, at.v + m_grip.v});
    }
}

void MarkTool::release()
{
    m_dragging = false;
    m_flow.beginGesture();
}

void MarkTool::hover(PixelPoint at, const PictureMap&)
{
    m_flow.setCursor(at);
}

std::optional<PixelPoint> MarkTool::closeUpAt() const
{
    if (m_dragging && m_flow.chosen() && m_flow.clip() != nullptr) {
        if (const Mark* mark = m_flow.clip()->marking().find(*m_flow.chosen())) {
            return mark->at;
        }
    }
    if (m_placing && !m_flow.chosen() && m_flow.pending()) {
        return m_flow.cursor();
    }
    return std::nullopt;
}

QString MarkTool::nameAtPointer() const
{
    const auto pending = m_flow.pending();
    return !m_dragging && pending ? wordFor(*pending) : QString();
}

} // namespace latemile::ui
