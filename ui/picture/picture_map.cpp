// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/picture_map.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::ui {

double PictureMap::distance(PixelPoint a, PixelPoint b) const
{
    return std::hypot(a.u - b.u, a.v - b.v) * zoom / devicePixels;
}

PictureMap fitted(QSize picture, QSizeF device, double devicePixels)
{
    return fitted(QRectF(QPointF(0, 0), QSizeF(picture)), device, devicePixels);
}

PictureMap fitted(QRectF part, QSizeF device, double devicePixels)
{
    PictureMap map{.zoom = 1.0, .origin = {}, .devicePixels = devicePixels};
    if (part.isEmpty() || device.isEmpty()) {
        return map;
    }
    map.zoom = std::min(device.width() / part.width(), device.height() / part.height());
    map.origin = QPointF(device.width() / 2, device.height() / 2) - part.center() * map.zoom;
    return map;
}

} // namespace latemile::ui
