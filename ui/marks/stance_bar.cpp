// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/stance_bar.hpp"

#include <QPainter>

namespace latemile::ui {
namespace {

void paintBody(QPainter& painter, const StanceBar& bar, const QColor& colour)
{
    QPen pen(colour, 1.5);
    if (bar.isFatigued || !bar.isPlaced) {
        pen.setDashPattern({3, 2});
    }
    QColor fill = colour;
    fill.setAlpha(!bar.isPlaced ? 0 : (bar.isFatigued ? 45 : 255));
    painter.setPen(bar.isWhole ? pen : Qt::NoPen);
    painter.setBrush(bar.isWhole ? fill : QColor(Qt::transparent));
    painter.drawRoundedRect(bar.box, 3, 3);
    if (!bar.isWhole) {
        painter.setPen(QPen(colour, 2.5));
        painter.drawLine(bar.box.topLeft(), bar.box.bottomLeft());
        painter.drawLine(QPointF(bar.box.left(), bar.box.center().y()),
                         QPointF(bar.box.left() + 8, bar.box.center().y()));
    }
}

/// One standard error to both sides, under the bar: it would hide its ends.
void paintWhisker(QPainter& painter, double x, const StanceBar& bar, const Tokens& tokens)
{
    const double y = bar.box.bottom() + 3.5;
    painter.setPen(QPen(tokens.text, 1.25));
    painter.drawLine(QPointF(x - bar.error, y), QPointF(x + bar.error, y));
    for (const double end : {x - bar.error, x + bar.error}) {
        painter.drawLine(QPointF(end, y - 2.5), QPointF(end, y + 2.5));
    }
}

void paintNumber(QPainter& painter, const StanceBar& bar, const QColor& colour,
                 const Tokens& tokens)
{
    if (bar.box.width() <= 18 && bar.isWhole) {
        return;
    }
    const bool filled = bar.isPlaced && !bar.isFatigued && bar.isWhole;
    const bool paleOnIt = contrastOf(Qt::white, colour) >= contrastOf(Qt::black, colour);
    painter.setPen(!filled ? tokens.text : QColor(paleOnIt ? Qt::white : Qt::black));
    painter.drawText(bar.isWhole ? bar.box : bar.box.translated(10, 0), Qt::AlignCenter,
                     QString::number(bar.number));
}

} // namespace

void paintStanceBar(QPainter& painter, const StanceBar& bar, const Tokens& tokens)
{
    const QColor colour =
        !bar.isPlaced ? tokens.proposal : (bar.isFatigued ? tokens.fatigued : tokens.fresh);
    if (!bar.isPlaced) { // The row's line would run through a hollow bar and its number.
        painter.setPen(Qt::NoPen);
        painter.setBrush(tokens.paper);
        painter.drawRoundedRect(bar.box, 3, 3);
    }
    paintBody(painter, bar, colour);
    if (bar.error > 0.0) {
        paintWhisker(painter, bar.box.left(), bar, tokens);
        if (bar.isWhole) {
            paintWhisker(painter, bar.box.right(), bar, tokens);
        }
    }
    if (bar.isChosen) {
        painter.setPen(QPen(tokens.text, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(bar.box.adjusted(-3, -3, 3, 3), 4, 4);
    }
    paintNumber(painter, bar, colour, tokens);
}

void paintFaultSign(QPainter& painter, QPointF centre, double bottom, bool missing,
                    const Tokens& tokens)
{
    const double r = faultSignRadius;
    painter.setPen(QPen(tokens.doubt, 1.5, missing ? Qt::DotLine : Qt::SolidLine));
    painter.drawLine(centre + QPointF(0, r), QPointF(centre.x(), bottom));
    painter.setPen(QPen(tokens.doubt, 1.5));
    painter.setBrush(tokens.card);
    painter.drawEllipse(centre, r, r);
    QFont font = painter.font();
    font.setPixelSize(smallText);
    font.setWeight(QFont::Bold);
    painter.setFont(font);
    painter.drawText(QRectF(centre.x() - r, centre.y() - r, 2 * r, 2 * r), Qt::AlignCenter,
                     missing ? QStringLiteral("?") : QStringLiteral("!"));
}

} // namespace latemile::ui
