// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/ink.hpp"

#include "ui/theme/tokens.hpp"

#include <QFontMetricsF>
#include <QPainter>

namespace latemile::ui {
namespace {

const QColor rim(255, 255, 255, 210);

} // namespace

FigureInk inkOf(const std::string& condition)
{
    // The picture is the same in both themes, so are the inks on it.
    const Tokens tokens = lightTokens();
    if (condition == "fatigued") {
        return {.colour = tokens.fatigued, .dashed = true, .hollow = true};
    }
    if (condition == "fresh") {
        return {.colour = tokens.fresh, .dashed = false, .hollow = false};
    }
    return {.colour = QColor(0x30, 0x34, 0x38), .dashed = false, .hollow = false};
}

FigureInk unconfirmedInk(Origin origin)
{
    return {.colour = QColor(0x4e, 0x52, 0x56),
            .dashed = false,
            .hollow = origin == Origin::Proposed,
            .slight = true};
}

FigureInk warningInk()
{
    return {.colour = lightTokens().bad, .dashed = true, .hollow = false};
}

void drawLiveLine(QPainter& painter, const FigureInk& ink, QPointF from, QPointF to,
                  double devicePixels)
{
    painter.setPen(QPen(rim, 3 * devicePixels, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(from, to);
    painter.setPen(QPen(ink.colour, devicePixels, Qt::DotLine, Qt::FlatCap));
    painter.drawLine(from, to);
}

void drawInkLine(QPainter& painter, const FigureInk& ink, QPointF from, QPointF to,
                 double devicePixels)
{
    painter.setPen(QPen(rim, (ink.slight ? 3 : 4) * devicePixels, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(from, to);
    QPen pen(ink.colour, (ink.slight ? 1.25 : 2) * devicePixels, Qt::SolidLine, Qt::FlatCap);
    if (ink.dashed) {
        pen.setDashPattern({4, 2.5});
    } else if (ink.slight) {
        pen.setDashPattern({1.5, 2.5});
    }
    painter.setPen(pen);
    painter.drawLine(from, to);
}

void drawInkDot(QPainter& painter, const FigureInk& ink, QPointF at, double devicePixels)
{
    const double radius = (ink.slight ? (ink.hollow ? 2.5 : 1.75) : 4.5) * devicePixels;
    painter.setPen(QPen(rim, (ink.slight ? 4.0 : 4.5) * devicePixels));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(at, radius, radius);
    painter.setPen(QPen(ink.colour, (ink.slight && ink.hollow ? 1.5 : 2) * devicePixels));
    painter.setBrush(ink.hollow ? Qt::NoBrush : QBrush(ink.colour));
    painter.drawEllipse(at, radius, radius);
    if (ink.slight) {
        return;
    }
    // The exact place, for the eye to set a nudge by.
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink.hollow ? ink.colour : QColor(Qt::white));
    painter.drawEllipse(at, 1.1 * devicePixels, 1.1 * devicePixels);
}

void drawErrorRing(QPainter& painter, QPointF at, double radius, double devicePixels)
{
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(255, 255, 255, 150), 3 * devicePixels));
    painter.drawEllipse(at, radius, radius);
    painter.setPen(QPen(QColor(0x30, 0x34, 0x38, 190), devicePixels));
    painter.drawEllipse(at, radius, radius);
}

void drawChosenRing(QPainter& painter, QPointF at, double devicePixels)
{
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(0, 0, 0, 170), 4 * devicePixels));
    painter.drawEllipse(at, 11 * devicePixels, 11 * devicePixels);
    painter.setPen(QPen(Qt::white, 2 * devicePixels));
    painter.drawEllipse(at, 11 * devicePixels, 11 * devicePixels);
}

void drawPlate(QPainter& painter, const QString& text, QPointF at, double devicePixels)
{
    QFont font = painter.font();
    font.setPixelSize(qRound(smallText * devicePixels));
    font.setWeight(QFont::DemiBold);
    painter.setFont(font);
    const QFontMetricsF metrics(font);
    const double pad = 6 * devicePixels;
    QRectF box(0, 0, metrics.horizontalAdvance(text) + 2 * pad, metrics.height() + pad / 2);
    box.moveTopLeft(at - QPointF(0, box.height() / 2));
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0x1d, 0x20, 0x23, 225));
    painter.drawRoundedRect(box, 4 * devicePixels, 4 * devicePixels);
    painter.setPen(Qt::white);
    painter.drawText(box, Qt::AlignCenter, text);
}

} // namespace latemile::ui
