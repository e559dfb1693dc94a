// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_blocks.hpp"

#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace latemile::ui {
namespace {

QString qt(const std::string& text)
{
    return QString::fromStdString(text);
}

/// "Contact, minute 6"
QString stillWords(Instant instant, const std::string& minute)
{
    const QString words = capital(wordFor(instant));
    return minute.empty() ? words : words + QStringLiteral(", ") + qt(minute);
}

/// Paragraphs one under the other.
double placeParagraphs(LayoutPen& pen, Slot slot, const std::vector<std::string>& paragraphs,
                       std::size_t from, std::size_t to)
{
    double y = slot.top;
    for (std::size_t i = from; i < std::min(to, paragraphs.size()); ++i) {
        y = pen.text(slot.left, y, slot.width, qt(paragraphs[i]), Role::Small) + smallGap / 4.0;
    }
    return y;
}

} // namespace

QString sheetWord(const char* word)
{
    return QCoreApplication::translate("Sheet", word);
}

SignItem::Kind signOf(Verdict verdict)
{
    switch (verdict) {
    case Verdict::ClearChange:
        return SignItem::Kind::Clear;
    case Verdict::WithinError:
        return SignItem::Kind::Within;
    case Verdict::TooFewSteps:
        return SignItem::Kind::TooFew;
    case Verdict::NotComparable:
        break;
    }
    return SignItem::Kind::NotComparable;
}

double placeHeading(LayoutPen& pen, Slot slot, const QString& text)
{
    return pen.text(slot.left, slot.top, slot.width, text, Role::Bold) + 0.25 * smallGap;
}

double LayoutPen::text(double left, double top, double width, const QString& text, Role role,
                       Ink ink, int maxLines, Qt::Alignment alignment)
{
    if (text.isEmpty() || width <= 0.0) {
        return top;
    }
    const QFont font = m_type.font(role);
    const QString shown = fitted(text, font, width, maxLines);
    const double height = lineCount(shown, font, width) * m_type.lineHeight(role);
    m_layout.texts.push_back({{left, top, width, height}, shown, role, ink, alignment});
    return top + height;
}

void LayoutPen::rule(double left, double top, double width)
{
    m_layout.fills.push_back({{left, top, width, 0.6 * twipsPerPoint}, FillItem::Kind::Rule});
}

void LayoutPen::tint(const QRectF& rect)
{
    m_layout.fills.push_back({rect, FillItem::Kind::Tint});
}

void LayoutPen::sign(const QRectF& rect, SignItem::Kind kind, const QString& letter)
{
    m_layout.signs.push_back({rect, kind, letter});
}

double placeHeader(LayoutPen& pen, const SheetContent& content, const SheetStyle& style, Slot slot)
{
    const double factsWidth = 0.4 * slot.width;
    double logoWidth = 0.0;
    const double logoHeight = 2.6 * pen.type().lineHeight(Role::Body);
    if (!style.logo.isNull()) {
        const double wish = logoHeight * style.logo.width() / style.logo.height();
        logoWidth = std::min(wish, 0.2 * slot.width);
        const double height = logoWidth * style.logo.height() / style.logo.width();
        pen.layout().logo = {slot.left + slot.width - logoWidth, slot.top, logoWidth, height};
        logoWidth += gap;
    }
    const double nameWidth = slot.width - factsWidth - logoWidth - gap;
    double left =
        pen.text(slot.left, slot.top, nameWidth, qt(content.athlete), Role::Title, Ink::Text, 2);
    left =
        pen.text(slot.left, left, nameWidth,
                 sheetWord(QT_TRANSLATE_NOOP("Sheet", "Running form, fresh and late in the run")),
                 Role::Body, Ink::Quiet, 1);
    const double factsLeft = slot.left + nameWidth + gap;
    double right = pen.text(factsLeft, slot.top, factsWidth, qt(content.date), Role::Bold,
                            Ink::Text, 1, Qt::AlignRight);
    right = pen.text(factsLeft, right, factsWidth, qt(content.speed), Role::Body, Ink::Text, 2,
                     Qt::AlignRight);
    QStringList minutes;
    for (const std::string& minute : {content.freshMinute, content.fatiguedMinute}) {
        if (!minute.empty()) {
            minutes << qt(minute);
        }
    }
    right = pen.text(factsLeft, right, factsWidth,
                     minutes.join(sheetWord(QT_TRANSLATE_NOOP("Sheet", " and "))), Role::Body,
                     Ink::Text, 1, Qt::AlignRight);
    const double bottom =
        std::max({left, right, style.logo.isNull() ? 0.0 : pen.layout().logo.bottom()}) + smallGap;
    pen.rule(slot.left, bottom, slot.width);
    return bottom + twipsPerPoint;
}

double placeCautions(LayoutPen& pen, const SheetContent& content, Slot slot,
                     const Allowance& allowance)
{
    const double half = (slot.width - 2.0 * gap) / 2.0;
    const double right = slot.left + half + 2.0 * gap;
    if (content.note.empty()) {
        const double top =
            placeHeading(pen, slot, sheetWord(QT_TRANSLATE_NOOP("Sheet", "Please mind")));
        const std::size_t middle = (content.cautions.size() + 1) / 2;
        return std::max(placeParagraphs(pen, {slot.left, top, half}, content.cautions, 0, middle),
                        placeParagraphs(pen, {right, top, half}, content.cautions, middle,
                                        content.cautions.size()));
    }
    const double cautions =
        placeParagraphs(pen,
                        {right,
                         placeHeading(pen, {right, slot.top, half},
                                      sheetWord(QT_TRANSLATE_NOOP("Sheet", "Please mind"))),
                         half},
                        content.cautions, 0, content.cautions.size());
    const double top = placeHeading(pen, {slot.left, slot.top, half},
                                    sheetWord(QT_TRANSLATE_NOOP("Sheet", "From your coach")));
    // Beside the cautions there is room for a note as long as they are, whatever is allowed.
    const int beside = static_cast<int>((cautions - top) / pen.type().lineHeight(Role::Small));
    const int lines = allowance.noteLines == 0 ? 0 : std::max(allowance.noteLines, beside);
    return std::max(
        cautions, pen.text(slot.left, top, half, qt(content.note), Role::Small, Ink::Text, lines));
}

double placeFooter(LayoutPen& pen, const SheetContent& content, const SheetStyle& style, Slot slot)
{
    pen.rule(slot.left, slot.top, slot.width);
    const double top = pen.text(slot.left, slot.top + smallGap, slot.width, qt(content.errorWords),
                                Role::Small, Ink::Quiet);
    QString who = qt(content.confirmed);
    if (!content.coach.empty()) {
        who += u' ' + sheetWord(QT_TRANSLATE_NOOP("Sheet", "Coach:")) + u' ' + qt(content.coach);
    }
    if (!style.contact.isEmpty()) {
        who += QStringLiteral(", ") + style.contact;
    }
    const QString maker = sheetWord(QT_TRANSLATE_NOOP("Sheet", "Made with Latemile"));
    const double makerWidth = 1.02 * textWidth(maker, pen.type().font(Role::Small));
    pen.text(slot.left + slot.width - makerWidth, top, makerWidth, maker, Role::Small, Ink::Quiet,
             1, Qt::AlignRight);
    return pen.text(slot.left, top, slot.width - makerWidth - gap, who, Role::Small, Ink::Quiet, 2);
}

double placeStills(LayoutPen& pen, const SheetContent& content, Slot slot, bool inOneRow)
{
    const int columns = inOneRow ? std::clamp(static_cast<int>(content.stills.size()), 2, 4) : 2;
    const double width = (slot.width - (columns - 1) * smallGap) / columns;
    const double height = width / stillAspect;
    const double line = pen.type().lineHeight(Role::SmallBold);
    const double side = 1.6 * pen.type().size(Role::Small);
    double y = slot.top;
    for (std::size_t i = 0; i < content.stills.size(); ++i) {
        const Still& still = content.stills[i];
        const auto column = static_cast<int>(i) % columns;
        if (column == 0 && i > 0) {
            y += 2.0 * line + height + smallGap;
        }
        const double left = slot.left + column * (width + smallGap);
        pen.sign({left, y, side, line},
                 still.fatigued ? SignItem::Kind::Fatigued : SignItem::Kind::Fresh);
        pen.text(left + side + smallGap, y, width - side - smallGap,
                 still.fatigued ? sheetWord(QT_TRANSLATE_NOOP("Sheet", "Fatigued"))
                                : sheetWord(QT_TRANSLATE_NOOP("Sheet", "Fresh")),
                 Role::SmallBold, Ink::Text, 1);
        pen.text(left, y + line, width,
                 stillWords(still.instant, inOneRow         ? std::string()
                                           : still.fatigued ? content.fatiguedMinute
                                                            : content.freshMinute),
                 Role::Small, Ink::Quiet, 1);
        pen.layout().stills.push_back({{left, y + 2.0 * line, width, height}, i});
    }
    return content.stills.empty() ? slot.top : y + 2.0 * line + height;
}

} // namespace latemile::ui
