// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/mark_tool.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/marks/follow_words.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_words.hpp"
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
    paintErrors(painter, map);
    paintFigure(painter, map, clip->marking(), m_frame, inkOf(clip->clip().condition));
    paintOddBones(painter, map);
    paintLiveLines(painter, map);
    paintChosen(painter, map);
}

void MarkTool::paintErrors(QPainter& painter, const PictureMap& map) const
{
    const auto& marks = m_flow.clip()->marking().marks;
    for (auto it = marks.lower_bound({m_frame, BodySide{}, Landmark{}});
         it != marks.end() && it->first.frame == m_frame; ++it) {
        const Mark& mark = it->second;
        if (mark.origin != Origin::Placed && mark.sePx) {
            drawErrorRing(painter, map.toDevice(mark.at), *mark.sePx * map.zoom, map.devicePixels);
        }
    }
}

void MarkTool::paintOddBones(QPainter& painter, const PictureMap& map) const
{
    for (const OddBone& bone : m_flow.oddBonesOn(m_frame)) {
        const Mark* upper = m_flow.clip()->marking().find({m_frame, BodySide::Near, bone.upper});
        const Mark* lower = m_flow.clip()->marking().find({m_frame, BodySide::Near, bone.lower});
        if (upper == nullptr || lower == nullptr) {
            continue;
        }
        const QPointF a = map.toDevice(upper->at);
        const QPointF b = map.toDevice(lower->at);
        drawInkLine(painter, warningInk(), a, b, 1.5 * map.devicePixels);
        drawPlate(painter, oddBoneWord(bone), (a + b) / 2 + QPointF(14, 0) * map.devicePixels,
                  map.devicePixels);
    }
}

bool MarkTool::isPlacing() const
{
    const auto pending = m_flow.pendingKey();
    return m_placing && !m_dragging && !m_flow.chosen() && pending && pending->frame == m_frame;
}

/// The line the next click would draw, so that a wrong place shows before it is set.
void MarkTool::paintLiveLines(QPainter& painter, const PictureMap& map) const
{
    if (!isPlacing()) {
        return;
    }
    const FigureInk ink = inkOf(m_flow.clip()->clip().condition);
    const MarkKey pending = *m_flow.pendingKey();
    for (const Landmark other : neighboursOf(pending.landmark)) {
        if (const Mark* mark = m_flow.clip()->marking().find({m_frame, pending.side, other})) {
            drawLiveLine(painter, ink, map.toDevice(mark->at), map.toDevice(m_flow.cursor()),
                         map.devicePixels);
        }
    }
}

void MarkTool::paintChosen(QPainter& painter, const PictureMap& map) const
{
    const auto& chosen = m_flow.chosen();
    const Mark* mark =
        chosen && chosen->frame == m_frame ? m_flow.clip()->marking().find(*chosen) : nullptr;
    if (mark != nullptr) {
        const QPointF at = map.toDevice(mark->at);
        drawChosenRing(painter, at, map.devicePixels);
        drawPlate(painter, wordFor(*chosen), at + QPointF(18, 0) * map.devicePixels,
                  map.devicePixels);
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
    const bool isAskedFor = placing && held == m_flow.pendingKey(); // proposed, and now placed
    if (held && !isAskedFor) {
        m_flow.choose(held);
        const PixelPoint mark = clip->marking().find(*held)->at;
        m_grip = {mark.u - at.u, mark.v - at.v};
        m_dragging = true;
        return true;
    }
    if (placing) {
        m_flow.placePending(at); // nothing on a late picture, and no panning either
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
    return isPlacing() ? std::optional(m_flow.cursor()) : std::nullopt;
}

QString MarkTool::nameAtPointer() const
{
    const auto pending = m_flow.pendingKey();
    return !m_dragging && pending ? wordFor(*pending) : QString();
}

} // namespace latemile::ui
