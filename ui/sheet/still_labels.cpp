// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/still_labels.hpp"

#include <QLineF>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace latemile::ui {
namespace {

/// What a label should keep clear of, in page coordinates.
struct Obstacles {
    QPainterPath head;
    std::vector<QPointF> landmarks;
    std::vector<QLineF> lines;
    std::vector<QPointF> anchors;
};

Obstacles obstaclesOf(const Still& still, const StillMap& map, double stillHeight)
{
    Obstacles obstacles;
    for (const StillMark& mark : still.landmarks) {
        obstacles.landmarks.push_back(map(mark.at));
        if (mark.landmark == Landmark::Ear) {
            // Half a head's height and a little, on a crop that holds a whole runner.
            const double radius = 0.075 * stillHeight;
            obstacles.head.addEllipse(map(mark.at), radius, radius);
        }
    }
    for (const StillLine& line : still.segments) {
        obstacles.lines.emplace_back(map(line.from), map(line.to));
    }
    for (const StillMeasured& measured : still.measured) {
        obstacles.anchors.push_back(map(measured.labelAt));
        for (const StillLine& line : measured.lines) {
            obstacles.lines.emplace_back(map(line.from), map(line.to));
        }
    }
    return obstacles;
}

/// How much of a line runs through a rectangle, in twips; sampled, since a twip more or less does
/// not matter here.
double lengthInside(const QLineF& line, const QRectF& rect)
{
    constexpr int samples = 24;
    int inside = 0;
    for (int i = 0; i <= samples; ++i) {
        inside += rect.contains(line.pointAt(static_cast<double>(i) / samples)) ? 1 : 0;
    }
    return line.length() * inside / (samples + 1);
}

/// How bad a place is; in twips, roughly.
double costOf(const QRectF& plate, const QPointF& anchor, const Obstacles& obstacles,
              const std::vector<PlacedLabel>& placed)
{
    const double air = 2.0 * twipsPerPoint;
    const QRectF roomy = plate.adjusted(-air, -air, air, air);
    // Beside is better than above or below: a number reads on from what it measures.
    double cost = 0.5 * QLineF(nearestOn(plate, anchor), anchor).length() +
                  0.5 * std::abs(plate.center().y() - anchor.y());
    for (const PlacedLabel& other : placed) {
        cost += roomy.intersects(other.plate) ? 1e6 : 0.0;
    }
    cost += obstacles.head.intersects(roomy) ? 1500.0 : 0.0; // a face is looked at first
    for (const QPointF& point : obstacles.landmarks) {
        cost += roomy.contains(point) ? 2000.0 : 0.0;
    }
    for (const QPointF& point : obstacles.anchors) {
        cost += roomy.contains(point) ? 1500.0 : 0.0;
    }
    for (const QLineF& line : obstacles.lines) {
        cost += 6.0 * lengthInside(line, roomy);
    }
    return cost;
}

/// Of many places around the anchor the cheapest that lies within `bounds`.
QRectF bestPlate(const QPointF& anchor, const QSizeF& size, const QRectF& bounds,
                 const Obstacles& obstacles, const std::vector<PlacedLabel>& placed)
{
    constexpr int directions = 24;
    QRectF best;
    double least = std::numeric_limits<double>::infinity();
    for (double away = 6.0; away <= 90.0; away += 6.0) {
        for (int i = 0; i < directions; ++i) {
            const double angle = 2.0 * std::numbers::pi * i / directions;
            const QPointF centre =
                anchor + QPointF((size.width() / 2.0 + away * twipsPerPoint) * std::cos(angle),
                                 (size.height() / 2.0 + away * twipsPerPoint) * std::sin(angle));
            QRectF plate({}, size);
            plate.moveCenter(centre);
            plate.moveLeft(std::clamp(plate.left(), bounds.left(),
                                      std::max(bounds.right() - size.width(), bounds.left())));
            plate.moveTop(std::clamp(plate.top(), bounds.top(),
                                     std::max(bounds.bottom() - size.height(), bounds.top())));
            const double cost = costOf(plate, anchor, obstacles, placed);
            if (cost < least) {
                least = cost;
                best = plate;
            }
        }
    }
    return best;
}

} // namespace

QPointF nearestOn(const QRectF& rect, const QPointF& point)
{
    return {std::clamp(point.x(), rect.left(), rect.right()),
            std::clamp(point.y(), rect.top(), rect.bottom())};
}

StillMap::StillMap(const Still& still, const QRectF& rect)
    : m_rect(rect), m_from(still.cropFrom),
      m_acrossScale(rect.width() / std::max(still.cropTo.u - still.cropFrom.u, 1e-9)),
      m_downScale(rect.height() / std::max(still.cropTo.v - still.cropFrom.v, 1e-9))
{
}

QPointF StillMap::operator()(PixelPoint point) const
{
    return {m_rect.left() + (point.u - m_from.u) * m_acrossScale,
            m_rect.top() + (point.v - m_from.v) * m_downScale};
}

QRectF StillMap::operator()(const QRectF& pixels) const
{
    return {(*this)(PixelPoint{pixels.left(), pixels.top()}),
            (*this)(PixelPoint{pixels.right(), pixels.bottom()})};
}

std::vector<PlacedLabel> placeLabels(const Still& still, const QRectF& rect, const SheetType& type)
{
    const StillMap map(still, rect);
    const Obstacles obstacles = obstaclesOf(still, map, rect.height());
    const double pad = 2.0 * twipsPerPoint;
    const double height = 1.5 * type.size(Role::Small);
    const QRectF bounds = rect.adjusted(pad, pad, -pad, -pad);
    std::vector<PlacedLabel> placed;
    for (const StillMeasured& measured : still.measured) {
        PlacedLabel label;
        label.letter = QString::fromStdString(measured.letter);
        const bool lettersOnly =
            !label.letter.isEmpty() && (rect.width() < narrowStill || measured.label.empty());
        label.text = lettersOnly ? QString() : QString::fromStdString(measured.label);
        const double badge = label.letter.isEmpty() ? 0.0 : 1.15 * type.size(Role::Small);
        const double words = textWidth(label.text, type.font(Role::SmallBold));
        const double width =
            lettersOnly ? height : std::min(words + badge + 3.5 * pad, bounds.width());
        label.anchor = map(measured.labelAt);
        label.anchor.setX(std::clamp(label.anchor.x(), bounds.left(), bounds.right()));
        label.anchor.setY(std::clamp(label.anchor.y(), bounds.top(), bounds.bottom()));
        label.plate = bestPlate(label.anchor, {width, height}, bounds, obstacles, placed);
        if (badge > 0.0) {
            label.badge = {lettersOnly ? label.plate.center().x() - badge / 2.0
                                       : label.plate.left() + pad,
                           label.plate.center().y() - badge / 2.0, badge, badge};
        }
        placed.push_back(std::move(label));
    }
    return placed;
}

} // namespace latemile::ui
