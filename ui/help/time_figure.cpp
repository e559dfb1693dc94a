// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/measure_picture.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QGuiApplication>
#include <QPainter>
#include <QPalette>

#include <array>

namespace latemile::ui {
namespace {

/// Contacts and toe-offs of the worked example's rhythm, seconds.
struct Bar {
    Foot foot;
    double from;
    double to;
};
constexpr std::array bars{Bar{Foot::Right, 0.10, 0.352}, Bar{Foot::Left, 0.456, 0.710},
                          Bar{Foot::Right, 0.814, 1.066}};
constexpr double last = 1.15;

struct Span {
    double from;
    double to;
};

bool holds(std::string_view id, std::string_view part)
{
    return id.find(part) != std::string_view::npos;
}

/// What of the rhythm a measure times.
Span timedBy(const Measure& measure)
{
    if (holds(measure.id, "contact")) {
        return {bars[0].from, bars[0].to};
    }
    if (holds(measure.id, "flight")) {
        return {bars[0].to, bars[1].from};
    }
    return holds(measure.id, "step") ? Span{bars[0].from, bars[1].from}
                                     : Span{bars[0].from, bars[2].from};
}

void paintBracket(QPainter& painter, const QRectF& rect, const QColor& ink)
{
    painter.setPen(QPen(ink, 2));
    painter.drawPolyline(
        QPolygonF{rect.bottomLeft(), rect.topLeft(), rect.topRight(), rect.bottomRight()});
}

} // namespace

void paintFeetInTime(QPainter& painter, const QRectF& rect, const Measure& measure)
{
    const Tokens tokens = tokensOf(QGuiApplication::palette());
    const QRectF field = rect.adjusted(8 * gridStep, 5 * gridStep, -gridStep, -2 * gridStep);
    const double row = field.height() / 2;
    const auto x = [&](double seconds) { return field.left() + field.width() * seconds / last; };
    QFont font = painter.font();
    font.setPixelSize(smallText);
    painter.setFont(font);
    for (const Foot foot : {Foot::Left, Foot::Right}) {
        const double top = field.top() + (foot == Foot::Left ? 0.0 : row);
        painter.setPen(tokens.text);
        painter.drawText(QRectF(rect.left(), top, 7 * gridStep, row),
                         Qt::AlignRight | Qt::AlignVCenter, wordFor(foot));
        painter.setPen(tokens.line);
        painter.drawLine(QPointF(field.left(), top + row / 2),
                         QPointF(field.right(), top + row / 2));
        for (const Bar& bar : bars) {
            if (bar.foot == foot) {
                painter.fillRect(
                    QRectF(x(bar.from), top + row * 0.28, x(bar.to) - x(bar.from), row * 0.44),
                    tokens.quiet);
            }
        }
    }
    const Span span = timedBy(measure);
    const QRectF bracket(x(span.from), field.top() - 1.5 * gridStep, x(span.to) - x(span.from),
                         gridStep);
    paintBracket(painter, bracket, tokens.text);
    painter.setPen(QPen(tokens.text, 1, Qt::DotLine));
    for (const double seconds : {span.from, span.to}) {
        painter.drawLine(QPointF(x(seconds), bracket.bottom()),
                         QPointF(x(seconds), field.bottom()));
    }
    const QRectF words(rect.left(), rect.top(), rect.width(), 3 * gridStep);
    painter.setPen(tokens.text);
    painter.drawText(words, Qt::AlignCenter, fromUtf8(measure.name));
}

} // namespace latemile::ui
