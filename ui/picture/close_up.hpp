// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/picture/picture_map.hpp"

#include <QImage>
#include <QSizeF>

class QPainter;

namespace latemile::ui {

class PictureTool;

/// A round window that shows the surroundings of a point four times as large, beside the point so
/// that it never covers it. Paints in device pixels.
void paintCloseUp(QPainter& painter, const QImage& picture, const PictureTool& tool, PixelPoint at,
                  const PictureMap& map, QSizeF device);

/// The name of what is being placed, at the point.
void paintNameAt(QPainter& painter, const QString& name, PixelPoint at, const PictureMap& map);

} // namespace latemile::ui
