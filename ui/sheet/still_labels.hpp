// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/still.hpp"
#include "ui/sheet/sheet_type.hpp"

#include <QPointF>
#include <QRectF>
#include <QString>

#include <vector>

namespace latemile::ui {

/// Where a place of the upright picture comes to stand on the page, for a still shown in `rect`.
class StillMap {
public:
    StillMap(const Still& still, const QRectF& rect);
    [[nodiscard]] QPointF operator()(PixelPoint point) const;
    /// The part of the page that shows this part of the picture.
    [[nodiscard]] QRectF operator()(const QRectF& pixels) const;

private:
    QRectF m_rect;
    PixelPoint m_from;
    double m_acrossScale{};
    double m_downScale{};
};

/// A measure's label on a still: a plate with its letter and number, and what it points at.
struct PlacedLabel {
    QRectF plate;
    QRectF badge; ///< of the letter, inside the plate; empty without a letter
    QPointF anchor;
    QString letter;
    QString text;
};

/// Narrower stills bear letters alone; the numbers stand in the table.
inline constexpr double narrowStill = 130.0 * twipsPerPoint;

/// The point of a rectangle that is nearest to `point`.
[[nodiscard]] QPointF nearestOn(const QRectF& rect, const QPointF& point);

/// Finds every label a place near what it measures: wholly inside the still, on no other label,
/// and as far as may be beside the body, its landmarks and the lines.
[[nodiscard]] std::vector<PlacedLabel> placeLabels(const Still& still, const QRectF& rect,
                                                   const SheetType& type);

} // namespace latemile::ui
