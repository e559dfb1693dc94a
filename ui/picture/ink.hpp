// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "ui/picture/picture_map.hpp"

#include <QColor>
#include <QString>

#include <string>

class QPainter;

namespace latemile::ui {

/// How a condition's lines and dots look on a picture: fresh solid and filled, fatigued dashed and
/// hollow, so that colour is never the only sign.
struct FigureInk {
    QColor colour;
    bool dashed{};
    bool hollow{};
    bool slight{}; ///< smaller dots and thin dotted lines: nobody confirmed it
    bool operator==(const FigureInk&) const = default;
};
[[nodiscard]] FigureInk inkOf(const std::string& condition);
/// For marks nobody confirmed: grey, smaller and dotted; what is only proposed is hollow.
[[nodiscard]] FigureInk unconfirmedInk(Origin origin);

/// For what contradicts the rest of the marking.
[[nodiscard]] FigureInk warningInk();

/// A line with a pale rim, readable on any picture. Points are device pixels.
void drawInkLine(QPainter& painter, const FigureInk& ink, QPointF from, QPointF to,
                 double devicePixels);
void drawInkDot(QPainter& painter, const FigureInk& ink, QPointF at, double devicePixels);
/// A thin line to where the next mark would go.
void drawLiveLine(QPainter& painter, const FigureInk& ink, QPointF from, QPointF to,
                  double devicePixels);
/// A faint ring at the standard error of a mark; `radius` in device pixels.
void drawErrorRing(QPainter& painter, QPointF at, double radius, double devicePixels);
/// A ring around the mark the keyboard acts on.
void drawChosenRing(QPainter& painter, QPointF at, double devicePixels);
/// Letters on a dark plate, their left middle at `at`.
void drawPlate(QPainter& painter, const QString& text, QPointF at, double devicePixels);

} // namespace latemile::ui
