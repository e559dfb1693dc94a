// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/measure_picture.hpp"
#include "ui/picture/ink.hpp"

#include <QPainter>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace latemile::ui {
namespace {

struct RearPoint {
    Landmark landmark;
    QPointF left;  ///< shares of the picture's width and height
    QPointF right; ///<
};

/// A runner from behind over the right foot, the left one swinging. Invented.
constexpr std::array points{
    RearPoint{Landmark::Ear, {0.47, 0.11}, {0.57, 0.11}},
    RearPoint{Landmark::Shoulder, {0.35, 0.22}, {0.68, 0.21}},
    RearPoint{Landmark::Elbow, {0.27, 0.35}, {0.76, 0.35}},
    RearPoint{Landmark::Wrist, {0.36, 0.44}, {0.68, 0.43}},
    RearPoint{Landmark::Hip, {0.42, 0.50}, {0.61, 0.48}},
    RearPoint{Landmark::Psis, {0.46, 0.496}, {0.57, 0.484}},
    RearPoint{Landmark::Asis, {0.43, 0.48}, {0.60, 0.46}},
    RearPoint{Landmark::Knee, {0.43, 0.67}, {0.58, 0.68}},
    RearPoint{Landmark::Ankle, {0.42, 0.74}, {0.555, 0.87}},
    RearPoint{Landmark::HeelTop, {0.42, 0.77}, {0.55, 0.89}},
    RearPoint{Landmark::Heel, {0.42, 0.82}, {0.545, 0.94}},
    RearPoint{Landmark::Toe, {0.40, 0.85}, {0.57, 0.95}},
};

constexpr std::array segments{
    std::pair{Landmark::Shoulder, Landmark::Elbow}, std::pair{Landmark::Elbow, Landmark::Wrist},
    std::pair{Landmark::Hip, Landmark::Knee},       std::pair{Landmark::Knee, Landmark::Ankle},
    std::pair{Landmark::Ankle, Landmark::HeelTop},  std::pair{Landmark::HeelTop, Landmark::Heel}};

std::optional<RearPoint> find(Landmark landmark)
{
    const auto found = std::ranges::find(points, landmark, &RearPoint::landmark);
    return found == points.end() ? std::nullopt : std::optional(*found);
}

} // namespace

void paintRearFigure(QPainter& painter, const QRectF& rect, const Measure& measure)
{
    painter.fillRect(rect, QColor(0xe6, 0xe6, 0xe6));
    const auto at = [&](QPointF share) {
        return QPointF(rect.left() + share.x() * rect.width(),
                       rect.top() + share.y() * rect.height());
    };
    const FigureInk ink = inkOf("fresh");
    painter.setPen(QPen(ink.colour, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(at({0.52, 0.11}), 0.06 * rect.height(), 0.07 * rect.height());
    const auto across = [&](Landmark landmark) {
        const RearPoint point = *find(landmark);
        drawInkLine(painter, ink, at(point.left), at(point.right), 1.0);
    };
    across(Landmark::Shoulder);
    across(Landmark::Hip);
    const RearPoint shoulders = *find(Landmark::Shoulder);
    const RearPoint hips = *find(Landmark::Hip);
    drawInkLine(painter, ink, at((shoulders.left + shoulders.right) / 2),
                at((hips.left + hips.right) / 2), 1.0);
    for (const auto& [first, second] : segments) {
        const RearPoint from = *find(first);
        const RearPoint to = *find(second);
        drawInkLine(painter, ink, at(from.left), at(to.left), 1.0);
        drawInkLine(painter, ink, at(from.right), at(to.right), 1.0);
    }
    for (const Landmark landmark : measure.landmarks) {
        if (const auto point = find(landmark)) {
            for (const QPointF& share : {point->left, point->right}) {
                drawInkDot(painter, ink, at(share), 1.0);
                painter.setBrush(Qt::NoBrush);
                painter.setPen(QPen(Qt::black, 1.5));
                painter.drawEllipse(at(share), 9.0, 9.0);
            }
        }
    }
}

} // namespace latemile::ui
