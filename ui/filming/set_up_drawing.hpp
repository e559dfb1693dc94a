// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>

class QPainter;

namespace latemile::ui {

struct SetUpCard;
class SheetType;

/// The set-up in simple lines: from above at the left, along the belt at the right. Twips.
void paintSetUpDrawing(QPainter& painter, const QRectF& rect, const SetUpCard& card,
                       const SheetType& type);

} // namespace latemile::ui
