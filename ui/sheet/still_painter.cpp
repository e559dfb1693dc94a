// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/still_painter.hpp"

#include "ui/sheet/still_labels.hpp"

#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

/// A point for strokes: thinner on small stills, where a full one would hide the runner.
double strokePoint(const QRectF& rect)
{
    constexpr double fullWidth = 140.0 * twipsPerPoint;
    return twipsPerPoint * std::clamp(rect.width() / fullWidth, 0.65, 1.0);
}

/// A stroke on a picture needs a light edge, or it is lost on what is dark.
void strokeWithEdge(QPainter& painter, const QLineF& line, QPen pen, double edge)
{
    QPen light(Qt::white, pen.widthF() + 2.0 * edge, Qt::SolidLine, Qt::RoundCap);
    painter.setPen(light);
    painter.drawLine(line);
    pen.setCapStyle(pen.style() == Qt::SolidLine ? Qt::RoundCap : Qt::FlatCap);
    painter.setPen(pen);
    painter.drawLine(line);
}

void paintPicture(QPainter& painter, const QRectF& rect, const Still& still, const QImage& picture,
                  const SheetStyle& style)
{
    painter.fillRect(rect, QColor(0xe6, 0xe6, 0xe6)); // where the crop reaches out of the picture
    const QRect wish =
        QRectF(QPointF(still.cropFrom.u, still.cropFrom.v), QPointF(still.cropTo.u, still.cropTo.v))
            .toAlignedRect();
    const QRect part = wish.intersected(picture.rect());
    if (part.isEmpty()) {
        return;
    }
    QImage shown = picture.copy(part);
    if (style.blackAndWhite) {
        shown = shown.convertToFormat(QImage::Format_Grayscale8);
    }
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(StillMap(still, rect)(QRectF(part)), shown);
}

void paintPlumb(QPainter& painter, const Still& still, const StillMap& map, double pt)
{
    const QLineF line(map(still.plumb.from), map(still.plumb.to));
    QPen dots(Qt::black, 0.6 * pt, Qt::CustomDashLine, Qt::FlatCap);
    dots.setDashPattern({2.0, 4.0});
    strokeWithEdge(painter, line, dots, 0.4 * pt);
}

void paintFigure(QPainter& painter, const Still& still, const StillMap& map, const SheetInks& inks,
                 double pt)
{
    const QColor colour = still.fatigued ? inks.fatigued : inks.fresh;
    QPen pen(colour, 1.5 * pt);
    if (still.fatigued) {
        pen.setStyle(Qt::CustomDashLine);
        pen.setDashPattern({2.6, 1.6});
    }
    for (const StillLine& line : still.segments) {
        strokeWithEdge(painter, {map(line.from), map(line.to)}, pen, 0.7 * pt);
    }
    for (const StillMark& mark : still.landmarks) {
        const double radius = 1.9 * pt;
        painter.setPen(QPen(Qt::white, 3.0 * pt / 2.0));
        painter.setBrush(Qt::white);
        painter.drawEllipse(map(mark.at), radius, radius);
        // A mark that nobody placed is a grey dot whichever the condition.
        const QColor dot = mark.placed ? colour : QColor(0x77, 0x77, 0x77);
        painter.setPen(QPen(dot, 1.1 * pt));
        painter.setBrush(still.fatigued ? QBrush(Qt::white) : QBrush(dot));
        painter.drawEllipse(map(mark.at), radius, radius);
    }
    painter.setBrush(Qt::NoBrush);
}

void paintArc(QPainter& painter, const StillArc& arc, const StillMap& map, double pt)
{
    const QPointF centre = map(arc.centre);
    const double radius = QLineF(centre, map({arc.centre.u + arc.radius, arc.centre.v})).length();
    const QRectF circle(centre.x() - radius, centre.y() - radius, 2.0 * radius, 2.0 * radius);
    QPainterPath path;
    path.arcMoveTo(circle, arc.fromDegrees);
    path.arcTo(circle, arc.fromDegrees, arc.toDegrees - arc.fromDegrees);
    painter.setPen(QPen(Qt::white, 2.6 * pt));
    painter.drawPath(path);
    painter.setPen(QPen(Qt::black, 1.1 * pt));
    painter.drawPath(path);
}

void paintMeasured(QPainter& painter, const StillMeasured& measured, const StillMap& map, double pt)
{
    for (const StillLine& line : measured.lines) {
        strokeWithEdge(painter, {map(line.from), map(line.to)}, QPen(Qt::black, 1.0 * pt),
                       0.7 * pt);
    }
    for (const StillArc& arc : measured.arcs) {
        paintArc(painter, arc, map, pt);
    }
}

void paintLabel(QPainter& painter, const PlacedLabel& label, const SheetInks& inks,
                const SheetType& type)
{
    constexpr double pt = twipsPerPoint;
    painter.setPen(QPen(Qt::black, 0.5 * pt));
    painter.setBrush(Qt::white);
    painter.drawRoundedRect(label.plate, 2.0 * pt, 2.0 * pt);
    painter.setBrush(Qt::NoBrush);
    const double left =
        label.badge.isEmpty() ? label.plate.left() + 3.0 * pt : label.badge.right() + 2.0 * pt;
    if (!label.badge.isEmpty()) {
        paintBadge(painter, label.badge, label.letter, inks, type);
    }
    painter.setPen(inks.text);
    const double height = type.lineHeight(Role::SmallBold);
    paintText(painter,
              {left, label.plate.center().y() - height / 2.0, label.plate.right() - left, height},
              label.text, type, Role::SmallBold, Qt::AlignLeft);
}

void paintLeader(QPainter& painter, const PlacedLabel& label, double pt)
{
    const QLineF leader(label.anchor, nearestOn(label.plate, label.anchor));
    if (leader.length() > 5.0 * pt) {
        strokeWithEdge(painter, leader, QPen(Qt::black, 0.5 * pt), 0.6 * pt);
    }
}

} // namespace

void paintBadge(QPainter& painter, const QRectF& rect, const QString& letter, const SheetInks& inks,
                const SheetType& type)
{
    painter.setPen(Qt::NoPen);
    painter.setBrush(inks.text);
    painter.drawEllipse(rect);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(Qt::white);
    const double height = type.lineHeight(Role::SmallBold);
    const QRectF line(rect.left() - rect.width(), rect.center().y() - height / 2.0,
                      3.0 * rect.width(), height);
    paintText(painter, line, letter, type, Role::SmallBold, Qt::AlignHCenter);
}

void paintConditionSample(QPainter& painter, const QRectF& rect, bool fatigued,
                          const SheetInks& inks)
{
    constexpr double pt = twipsPerPoint;
    QPen pen(fatigued ? inks.fatigued : inks.fresh, 1.5 * pt);
    if (fatigued) {
        pen.setStyle(Qt::CustomDashLine);
        pen.setDashPattern({1.8, 1.2});
        pen.setCapStyle(Qt::FlatCap);
    }
    painter.setPen(pen);
    const double middle = rect.center().y();
    painter.drawLine(QPointF(rect.left(), middle), QPointF(rect.right(), middle));
    painter.setPen(QPen(pen.color(), 1.1 * pt));
    painter.setBrush(fatigued ? QBrush(Qt::white) : QBrush(pen.color()));
    painter.drawEllipse(QPointF(rect.center().x(), middle), 2.2 * pt, 2.2 * pt);
    painter.setBrush(Qt::NoBrush);
}

void paintStill(QPainter& painter, const QRectF& rect, const Still& still, const QImage& picture,
                const SheetStyle& style, const SheetType& type)
{
    const SheetInks inks = sheetInks(style);
    const StillMap map(still, rect);
    const double pt = strokePoint(rect);
    painter.save();
    painter.setClipRect(rect, Qt::IntersectClip);
    paintPicture(painter, rect, still, picture, style);
    paintPlumb(painter, still, map, pt);
    for (const StillMeasured& measured : still.measured) {
        paintMeasured(painter, measured, map, pt);
    }
    paintFigure(painter, still, map, inks, pt);
    const auto labels = placeLabels(still, rect, type);
    for (const PlacedLabel& label : labels) {
        paintLeader(painter, label, pt);
    }
    for (const PlacedLabel& label : labels) {
        paintLabel(painter, label, inks, type);
    }
    painter.restore();
}

} // namespace latemile::ui
