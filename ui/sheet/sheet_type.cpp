// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_type.hpp"

#include <QFontMetricsF>
#include <QRegularExpression>
#include <QTextLayout>
#include <QTextOption>

#include <cmath>

namespace latemile::ui {
namespace {

/// A layout holds places inside itself, so it is filled where it stands and never copied.
void layLines(QTextLayout& layout, double width, double lineHeight, Qt::Alignment alignment)
{
    QTextOption option(alignment);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    layout.beginLayout();
    double top = 0.0;
    while (true) {
        QTextLine line = layout.createLine();
        if (!line.isValid()) {
            break;
        }
        line.setLineWidth(width);
        line.setPosition({0.0, top + (lineHeight - line.height()) / 2.0});
        top += lineHeight;
    }
    layout.endLayout();
}

QString plain(QString text)
{
    static const QRegularExpression percent(QStringLiteral("(?<=[0-9]) %"));
    return text
        .replace(percent, QStringLiteral("\u00a0%")) // a line never starts with the sign
        .replace(QLatin1String("\r\n"), QLatin1String("\n"))
        .replace(QLatin1Char('\n'), QChar(QChar::LineSeparator));
}

} // namespace

QSizeF paperSize(Paper paper)
{
    constexpr double mm = twipsPerInch / 25.4;
    return paper == Paper::A4 ? QSizeF(210.0 * mm, 297.0 * mm)
                              : QSizeF(8.5 * twipsPerInch, 11.0 * twipsPerInch);
}

SheetInks sheetInks(const SheetStyle& style)
{
    if (style.blackAndWhite) {
        return {Qt::black, QColor(0x33, 0x33, 0x33), QColor(0x88, 0x88, 0x88), Qt::white, Qt::black,
                Qt::black};
    }
    return {QColor(0x1a, 0x1f, 0x26), QColor(0x4d, 0x56, 0x61), QColor(0xc4, 0xca, 0xd1),
            QColor(0xf2, 0xf5, 0xf8), QColor(0x00, 0x72, 0xb2), QColor(0xd5, 0x5e, 0x00)};
}

SheetType::SheetType(const SheetStyle& style, double scale)
{
    const auto points = [scale](double size) { return std::round(size * scale * twipsPerPoint); };
    m_title = points(style.largePrint ? 24.0 : 20.0);
    m_body = points(style.largePrint ? 13.5 : 9.5);
    m_small = points(style.largePrint ? 11.5 : 8.0);
}

double SheetType::size(Role role) const
{
    switch (role) {
    case Role::Title:
        return m_title;
    case Role::Body:
    case Role::Bold:
        return m_body;
    case Role::Small:
    case Role::SmallBold:
        break;
    }
    return m_small;
}

double SheetType::lineHeight(Role role) const
{
    return std::round(size(role) * (role == Role::Title ? 1.2 : 1.32));
}

QFont SheetType::font(Role role) const
{
    QFont font;
    font.setFamilies({QStringLiteral("Noto Sans"), QStringLiteral("DejaVu Sans")});
    font.setStyleHint(QFont::SansSerif);
    font.setPixelSize(static_cast<int>(size(role)));
    const bool bold = role == Role::Title || role == Role::Bold || role == Role::SmallBold;
    font.setWeight(bold ? QFont::Bold : QFont::Normal);
    font.setHintingPreference(QFont::PreferNoHinting);
    // A trace of letter spacing switches ligatures off: a search for "flight" would not find a
    // word whose first two letters are one glyph.
    font.setLetterSpacing(QFont::PercentageSpacing, 100.01);
    return font;
}

QString fitted(const QString& text, const QFont& font, double width, int maxLines)
{
    const QString whole = plain(text);
    if (maxLines <= 0) {
        return whole;
    }
    QTextLayout layout(whole, font);
    layLines(layout, width, 1.0, Qt::AlignLeft);
    if (layout.lineCount() <= maxLines) {
        return whole;
    }
    const int start = layout.lineAt(maxLines - 1).textStart();
    QString last = whole.mid(start);
    last.replace(QChar(QChar::LineSeparator), QLatin1Char(' '));
    // A shade narrower than the line, since kerning at the cut may add a little.
    return whole.left(start) + QFontMetricsF(font).elidedText(last, Qt::ElideRight, 0.98 * width);
}

int lineCount(const QString& text, const QFont& font, double width)
{
    QTextLayout layout(plain(text), font);
    layLines(layout, width, 1.0, Qt::AlignLeft);
    return layout.lineCount();
}

double textWidth(const QString& text, const QFont& font)
{
    QTextLayout layout(plain(text), font);
    layLines(layout, 1e6, 1.0, Qt::AlignLeft);
    return layout.lineCount() > 0 ? layout.lineAt(0).naturalTextWidth() : 0.0;
}

void paintText(QPainter& painter, const QRectF& rect, const QString& text, const SheetType& type,
               Role role, Qt::Alignment alignment)
{
    QTextLayout layout(plain(text), type.font(role), painter.device());
    layLines(layout, rect.width(), type.lineHeight(role), alignment);
    layout.draw(&painter, rect.topLeft());
}

} // namespace latemile::ui
