// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_tool.hpp"

#include "core/sheet/still_drawing.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/picture/figure_painter.hpp"

#include <QPainter>
#include <QPainterPath>

#include <utility>

namespace latemile::ui {
namespace {

void paintMeasured(QPainter& painter, const PictureMap& map, const StillMeasured& measured,
                   const QString& label)
{
    const FigureInk ink{.colour = QColor(0x1d, 0x20, 0x23), .dashed = false, .hollow = false};
    for (const StillLine& line : measured.lines) {
        drawInkLine(painter, ink, map.toDevice(line.from), map.toDevice(line.to), map.devicePixels);
    }
    for (const StillArc& arc : measured.arcs) {
        const double radius = arc.radius * map.zoom;
        const QPointF centre = map.toDevice(arc.centre);
        QPainterPath path;
        const QRectF box(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius);
        path.arcMoveTo(box, arc.fromDegrees);
        path.arcTo(box, arc.fromDegrees, arc.toDegrees - arc.fromDegrees);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(QColor(255, 255, 255, 210), 4 * map.devicePixels));
        painter.drawPath(path);
        painter.setPen(QPen(ink.colour, 2 * map.devicePixels));
        painter.drawPath(path);
    }
    if (!label.isEmpty()) {
        drawPlate(painter, label,
                  map.toDevice(measured.labelAt) + QPointF(14, 0) * map.devicePixels,
                  map.devicePixels);
    }
}

} // namespace

void ReadingTool::show(const ClipDocument* clip, FrameNumber frame)
{
    m_clip = clip;
    m_frame = frame;
    m_measure = nullptr;
}

void ReadingTool::show(const ClipDocument* clip, FrameNumber frame, const Measure& measure,
                       const OwnMeasures& own, QString label)
{
    m_clip = clip;
    m_frame = frame;
    m_own = own;
    m_measure = m_own.find(measure.id);
    m_label = std::move(label);
}

void ReadingTool::paint(QPainter& painter, const PictureMap& map) const
{
    if (m_clip == nullptr) {
        return;
    }
    paintFigure(painter, map, m_clip->marking(), m_frame, inkOf(m_clip->clip().condition));
    const auto plane = Plane::from(m_clip->scene());
    if (m_measure == nullptr || !plane) {
        return;
    }
    if (const auto measured = drawingOf(*m_measure, m_clip->marking(), m_frame, *plane)) {
        paintMeasured(painter, map, *measured, m_label);
    }
}

} // namespace latemile::ui
