// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_painter.hpp"

#include "ui/sheet/sheet_layout.hpp"
#include "ui/sheet/still_painter.hpp"

#include <QPainterPath>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr double pt = twipsPerPoint;

void paintVerdict(QPainter& painter, const QRectF& rect, SignItem::Kind kind, const SheetInks& inks)
{
    const QPointF c = rect.center();
    const double r = rect.width() / 2.0;
    painter.setPen(QPen(inks.text, 1.0 * pt));
    painter.setBrush(Qt::NoBrush);
    switch (kind) {
    case SignItem::Kind::Clear:
        painter.setBrush(inks.text);
        painter.drawPolygon(QPolygonF{
            {c.x(), c.y() - r}, {c.x() + r, c.y()}, {c.x(), c.y() + r}, {c.x() - r, c.y()}});
        break;
    case SignItem::Kind::Within:
        painter.drawEllipse(c, 0.85 * r, 0.85 * r);
        break;
    case SignItem::Kind::TooFew:
        painter.setBrush(inks.text);
        painter.setPen(Qt::NoPen);
        for (const double x : {-0.75 * r, 0.0, 0.75 * r}) {
            painter.drawEllipse(c + QPointF(x, 0.0), 0.24 * r, 0.24 * r);
        }
        break;
    default:
        painter.drawLine(rect.topLeft() + QPointF(0.2 * r, 0.2 * r),
                         rect.bottomRight() - QPointF(0.2 * r, 0.2 * r));
        painter.drawLine(rect.topRight() + QPointF(-0.2 * r, 0.2 * r),
                         rect.bottomLeft() - QPointF(-0.2 * r, 0.2 * r));
        break;
    }
    painter.setBrush(Qt::NoBrush);
}

void paintSign(QPainter& painter, const SignItem& sign, const SheetInks& inks,
               const SheetType& type)
{
    switch (sign.kind) {
    case SignItem::Kind::Fresh:
    case SignItem::Kind::Fatigued:
        paintConditionSample(painter, sign.rect, sign.kind == SignItem::Kind::Fatigued, inks);
        break;
    case SignItem::Kind::Letter:
        paintBadge(painter, sign.rect, sign.letter, inks, type);
        break;
    default:
        paintVerdict(painter, sign.rect, sign.kind, inks);
        break;
    }
}

void paintFill(QPainter& painter, const FillItem& fill, const SheetInks& inks, bool outlined)
{
    if (fill.kind == FillItem::Kind::Rule) {
        painter.fillRect(fill.rect, inks.rule);
        return;
    }
    // Paper without a tint shows the card by its edge.
    painter.setPen(outlined ? QPen(inks.rule, 0.6 * pt) : QPen(Qt::NoPen));
    painter.setBrush(inks.tint);
    painter.drawRoundedRect(fill.rect, 3.0 * pt, 3.0 * pt);
    painter.setBrush(Qt::NoBrush);
}

void paintLayout(QPainter& painter, const SheetLayout& layout, const SheetContent& content,
                 const StillPictures& pictures, const SheetStyle& style)
{
    const SheetInks inks = sheetInks(style);
    const SheetType type(style, layout.scale);
    for (const FillItem& fill : layout.fills) {
        paintFill(painter, fill, inks, style.blackAndWhite);
    }
    for (const StillItem& item : layout.stills) {
        const QImage picture =
            item.still < pictures.images.size() ? pictures.images[item.still] : QImage();
        paintStill(painter, item.rect, content.stills[item.still], picture, style, type);
    }
    for (const SignItem& sign : layout.signs) {
        paintSign(painter, sign, inks, type);
    }
    for (const TextItem& text : layout.texts) {
        painter.setPen(text.ink == Ink::Text ? inks.text : inks.quiet);
        paintText(painter, text.rect, text.text, type, text.role, text.alignment);
    }
    if (!style.logo.isNull() && !layout.logo.isEmpty()) {
        painter.drawImage(layout.logo, style.blackAndWhite
                                           ? style.logo.convertToFormat(QImage::Format_Grayscale8)
                                           : style.logo);
    }
}

} // namespace

void paintSheet(QPainter& painter, const QRectF& page, const SheetContent& content,
                const StillPictures& pictures, const SheetStyle& style)
{
    const SheetContent told = style.inches ? toldIn(content, Lengths::Inches) : content;
    const SheetLayout layout = layOutSheet(told, style);
    const double scale =
        std::min(page.width() / layout.page.width(), page.height() / layout.page.height());
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing |
                           QPainter::SmoothPixmapTransform);
    painter.translate(page.left() + (page.width() - scale * layout.page.width()) / 2.0,
                      page.top() + (page.height() - scale * layout.page.height()) / 2.0);
    painter.scale(scale, scale);
    painter.fillRect(QRectF(QPointF(), layout.page), Qt::white);
    paintLayout(painter, layout, told, pictures, style);
    painter.restore();
}

} // namespace latemile::ui
