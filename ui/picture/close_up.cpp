// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/close_up.hpp"

#include "ui/picture/picture_tool.hpp"
#include "ui/theme/tokens.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr double diameter = 21 * gridStep; ///< logical pixels
constexpr double clearance = 6 * gridStep;
constexpr double magnification = 4.0;

/// Up and to the right of the point, or wherever there is room.
QPointF centreBeside(QPointF point, double radius, double gap, QSizeF device)
{
    const double reach = radius + gap;
    const bool right = point.x() + reach + radius <= device.width();
    const bool above = point.y() - reach - radius * 0.2 >= 0;
    return {std::clamp(point.x() + (right ? reach : -reach), radius,
                       std::max(radius, device.width() - radius)),
            std::clamp(point.y() + (above ? -reach : reach), radius,
                       std::max(radius, device.height() - radius))};
}

void paintCross(QPainter& painter, QPointF centre, double radius, double devicePixels)
{
    const double gap = 5 * devicePixels;
    for (const auto& [colour, width] : {std::pair(QColor(0, 0, 0, 150), 3.0 * devicePixels),
                                        std::pair(QColor(255, 255, 255), 1.0 * devicePixels)}) {
        painter.setPen(QPen(colour, width));
        for (const QPointF way : {QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)}) {
            painter.drawLine(centre + way * gap, centre + way * radius);
        }
    }
}

} // namespace

void paintCloseUp(QPainter& painter, const QImage& picture, const PictureTool& tool, PixelPoint at,
                  const PictureMap& map, QSizeF device)
{
    const double radius = diameter / 2 * map.devicePixels;
    const QPointF point = map.toDevice(at);
    const QPointF centre = centreBeside(point, radius, clearance * map.devicePixels, device);
    PictureMap near = map;
    near.zoom = magnification * std::max(map.zoom, map.devicePixels);
    near.origin = centre - QPointF(at.u, at.v) * near.zoom;

    painter.save();
    QPainterPath round;
    round.addEllipse(centre, radius, radius);
    painter.setClipPath(round);
    painter.fillPath(round, QColor(0x10, 0x11, 0x12));
    painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
    painter.drawImage(near.rectOf(picture.size()), picture);
    tool.paint(painter, near);
    paintCross(painter, centre, 14 * map.devicePixels, map.devicePixels);
    painter.restore();

    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(0, 0, 0, 150), 4 * map.devicePixels));
    painter.drawEllipse(centre, radius, radius);
    painter.setPen(QPen(Qt::white, 2 * map.devicePixels));
    painter.drawEllipse(centre, radius, radius);
}

void paintNameAt(QPainter& painter, const QString& name, PixelPoint at, const PictureMap& map)
{
    const QPointF point = map.toDevice(at);
    paintCross(painter, point, 14 * map.devicePixels, map.devicePixels);
    if (name.isEmpty()) {
        return;
    }
    QFont font = painter.font();
    font.setPixelSize(qRound(bodyText * map.devicePixels));
    font.setWeight(QFont::DemiBold);
    painter.setFont(font);
    const QFontMetricsF metrics(font);
    const double pad = 6 * map.devicePixels;
    QRectF box(0, 0, metrics.horizontalAdvance(name) + 2 * pad, metrics.height() + pad / 2);
    box.moveTopLeft(point + QPointF(18, 12) * map.devicePixels);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0x1d, 0x20, 0x23, 225));
    painter.drawRoundedRect(box, 4 * map.devicePixels, 4 * map.devicePixels);
    painter.setPen(Qt::white);
    painter.drawText(box, Qt::AlignCenter, name);
}

} // namespace latemile::ui
