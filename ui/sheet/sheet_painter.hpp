// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/sheet_content.hpp"
#include "ui/sheet/sheet_style.hpp"
#include "ui/sheet/still_pictures.hpp"

#include <QPainter>
#include <QRectF>

namespace latemile::ui {

/// Paints the whole sheet into `page` of the painter, whatever its unit: a printer's page, a
/// picture, a part of the window. The paper's proportions are kept; content in centimetres is told
/// in inches where the style asks for them. Missing pictures leave a grey field.
void paintSheet(QPainter& painter, const QRectF& page, const SheetContent& content,
                const StillPictures& pictures, const SheetStyle& style);

} // namespace latemile::ui
