// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/still.hpp"
#include "ui/sheet/sheet_type.hpp"

#include <QImage>
#include <QPainter>

namespace latemile::ui {

/// A frame with its figure: the picture cropped, the plumb line, the near side's segments and
/// landmarks in the condition's colour and stroke, the measures in ink with their labels. Nothing
/// is painted outside `rect`.
void paintStill(QPainter& painter, const QRectF& rect, const Still& still, const QImage& picture,
                const SheetStyle& style, const SheetType& type);

/// How a condition's figure is drawn, as a sample before its name: line and dot.
void paintConditionSample(QPainter& painter, const QRectF& rect, bool fatigued,
                          const SheetInks& inks);

/// A letter in a filled disc, as it stands beside a row and on the stills.
void paintBadge(QPainter& painter, const QRectF& rect, const QString& letter, const SheetInks& inks,
                const SheetType& type);

} // namespace latemile::ui
