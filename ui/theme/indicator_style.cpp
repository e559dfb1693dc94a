// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/indicator_style.hpp"

#include <QPainter>
#include <QStyleOption>

namespace latemile::ui {

void IndicatorStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option,
                                   QPainter* painter, const QWidget* widget) const
{
    if (element != PE_IndicatorCheckBox && element != PE_IndicatorItemViewItemCheck) {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        return;
    }
    const bool enabled = option->state.testFlag(State_Enabled);
    const QPalette& palette = option->palette;
    const QRectF box = QRectF(option->rect).adjusted(0.5, 0.5, -0.5, -0.5);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(palette.color(enabled ? QPalette::Dark : QPalette::Mid));
    painter->setBrush(palette.color(QPalette::Base));
    painter->drawRoundedRect(box, 2, 2);
    const QColor ink =
        palette.color(enabled ? QPalette::Normal : QPalette::Disabled, QPalette::Text);
    painter->setPen(QPen(ink, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const auto at = [&box](double x, double y) {
        return QPointF(box.left() + x * box.width(), box.top() + y * box.height());
    };
    if (option->state.testFlag(State_On)) {
        painter->drawPolyline(QPolygonF{at(0.25, 0.55), at(0.43, 0.73), at(0.76, 0.28)});
    } else if (option->state.testFlag(State_NoChange)) {
        painter->drawLine(at(0.28, 0.5), at(0.72, 0.5));
    }
    painter->restore();
}

} // namespace latemile::ui
