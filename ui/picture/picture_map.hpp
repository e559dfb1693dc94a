// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

#include <QPointF>
#include <QRectF>
#include <QSize>

namespace latemile::ui {

/// Where the upright picture lies on a widget, in device pixels, so that lines are drawn crisp on
/// any screen.
struct PictureMap {
    double zoom{1.0};         ///< device pixels a picture pixel
    QPointF origin;           ///< where the picture's top left corner is
    double devicePixels{1.0}; ///< device pixels a logical pixel: for line widths and letters

    [[nodiscard]] QPointF toDevice(PixelPoint point) const
    {
        return origin + QPointF(point.u, point.v) * zoom;
    }
    [[nodiscard]] PixelPoint toPicture(QPointF device) const
    {
        const QPointF point = (device - origin) / zoom;
        return {point.x(), point.y()};
    }
    [[nodiscard]] QRectF rectOf(QSize picture) const { return {origin, QSizeF(picture) * zoom}; }
    /// Distance of two picture points on the screen, logical pixels.
    [[nodiscard]] double distance(PixelPoint a, PixelPoint b) const;
    bool operator==(const PictureMap&) const = default;
};

/// The whole picture, centred.
[[nodiscard]] PictureMap fitted(QSize picture, QSizeF device, double devicePixels);
/// `part` of the picture, centred and as large as goes in.
[[nodiscard]] PictureMap fitted(QRectF part, QSizeF device, double devicePixels);

} // namespace latemile::ui
