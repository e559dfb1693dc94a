// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_blocks.hpp"

#include "ui/text/words.hpp"

#include <QStringList>

#include <algorithm>

namespace latemile::ui {
namespace {

QString qt(const std::string& text)
{
    return QString::fromStdString(text);
}

double badgeSide(const SheetType& type)
{
    return 1.15 * type.size(Role::Small);
}

/// A paragraph with a sign in the margin before it; the margin is one for both sizes of type.
double placeSigned(LayoutPen& pen, Slot slot, const SignItem& sign, const QString& words, Role role)
{
    const double badge = badgeSide(pen.type());
    const double side =
        sign.kind == SignItem::Kind::Letter ? badge : verdictShare * pen.type().size(Role::Body);
    const double middle = slot.top + pen.type().lineHeight(role) / 2.0;
    const double indent = 1.6 * pen.type().size(Role::Body);
    pen.sign({slot.left + (badge - side) / 2.0, middle - side / 2.0, side, side}, sign.kind,
             sign.letter);
    return pen.text(slot.left + indent, slot.top, slot.width - indent, words, role) +
           smallGap / 4.0;
}

/// The rows that say the same, gathered.
struct Gathered {
    Verdict verdict{};
    QString reason;
    QStringList names;
};

/// What is told of the rows without a clear change.
std::vector<Gathered> quietRows(const SheetContent& content)
{
    std::vector<Gathered> groups;
    for (const SheetRow& row : content.rows) {
        if (row.verdict == Verdict::ClearChange) {
            continue;
        }
        const QString reason = qt(row.reason).trimmed();
        auto found = std::find_if(groups.begin(), groups.end(), [&](const Gathered& group) {
            return group.verdict == row.verdict && group.reason == reason;
        });
        if (found == groups.end()) {
            found = groups.insert(groups.end(), {row.verdict, reason, {}});
        }
        found->names << qt(row.name).toLower();
    }
    return groups;
}

QString wordsOf(const Gathered& group)
{
    QString words = capital(wordFor(group.verdict));
    words += QStringLiteral(": ") + group.names.join(QStringLiteral(", ")) + QLatin1Char('.');
    return group.reason.isEmpty() ? words : words + QLatin1Char(' ') + group.reason;
}

/// A word in the margin of `indent` and its text beside it.
double placeLabelled(LayoutPen& pen, Slot slot, double indent, const QString& label,
                     const std::string& text, int maxLines)
{
    if (text.empty()) {
        return slot.top;
    }
    pen.text(slot.left, slot.top, indent, label, Role::SmallBold, Ink::Quiet, 1);
    return pen.text(slot.left + indent, slot.top, slot.width - indent, qt(text), Role::Small,
                    Ink::Text, maxLines);
}

double placeCard(LayoutPen& pen, const CueText& cue, Slot slot, const Allowance& allowance)
{
    const double pad = 0.75 * gap;
    const Slot inner{slot.left + pad, slot.top + pad, slot.width - 2.0 * pad};
    const QFont labels = pen.type().font(Role::SmallBold);
    const QString drill = sheetWord(QT_TRANSLATE_NOOP("Sheet", "Drill"));
    const QString mind = sheetWord(QT_TRANSLATE_NOOP("Sheet", "Mind"));
    const double indent = std::max(textWidth(drill, labels), textWidth(mind, labels)) +
                          0.7 * pen.type().size(Role::Small);
    double titleWidth = inner.width;
    if (!cue.letter.empty()) {
        const double badge = badgeSide(pen.type());
        const double middle = inner.top + pen.type().lineHeight(Role::Bold) / 2.0;
        pen.sign({inner.left + inner.width - badge, middle - badge / 2.0, badge, badge},
                 SignItem::Kind::Letter, qt(cue.letter));
        titleWidth -= badge + smallGap;
    }
    double y = pen.text(inner.left, inner.top, titleWidth, qt(cue.think), Role::Bold);
    y = pen.text(inner.left, y, inner.width, qt(cue.because), Role::Small, Ink::Quiet,
                 allowance.drillLines);
    for (const auto& [label, text] : {std::pair{drill, cue.drill}, std::pair{mind, cue.caution}}) {
        y = placeLabelled(pen, {inner.left, y + smallGap / 2.0, inner.width}, indent, label, text,
                          allowance.drillLines);
    }
    pen.tint({slot.left, slot.top, slot.width, y + pad - slot.top});
    return y + pad;
}

double placeClinician(LayoutPen& pen, const SheetContent& content, Slot slot)
{
    const double pad = 0.75 * gap;
    const double width = slot.width - 2.0 * pad;
    double y =
        pen.text(slot.left + pad, slot.top + pad, width,
                 sheetWord(QT_TRANSLATE_NOOP("Sheet", "Please see a clinician first")), Role::Bold);
    y = pen.text(slot.left + pad, y, width, qt(content.seeClinician), Role::Body) + pad;
    pen.tint({slot.left, slot.top, slot.width, y - slot.top});
    return y;
}

} // namespace

double placeFindings(LayoutPen& pen, const SheetContent& content, Slot slot)
{
    double y = placeHeading(pen, slot, sheetWord(QT_TRANSLATE_NOOP("Sheet", "What changed")));
    bool any = false;
    for (const SheetRow& row : content.rows) {
        if (row.verdict == Verdict::ClearChange) {
            any = true;
            y = placeSigned(pen, {slot.left, y, slot.width},
                            {{}, SignItem::Kind::Letter, qt(row.letter)}, qt(row.sentence),
                            Role::Body);
        }
    }
    if (!any) {
        y = pen.text(slot.left, y, slot.width,
                     sheetWord(QT_TRANSLATE_NOOP("Sheet",
                                                 "Nothing changed clearly, beyond its own error.")),
                     Role::Body) +
            smallGap / 4.0;
    }
    for (const Gathered& group : quietRows(content)) {
        y = placeSigned(pen, {slot.left, y, slot.width}, {{}, signOf(group.verdict), {}},
                        wordsOf(group), Role::Small);
    }
    return y;
}

double placeCues(LayoutPen& pen, const SheetContent& content, Slot slot, const Allowance& allowance,
                 bool sideBySide)
{
    if (content.seeClinician.empty() && content.cues.empty()) {
        return slot.top;
    }
    if (!content.seeClinician.empty()) {
        return placeClinician(pen, content, slot);
    }
    const auto count = static_cast<double>(content.cues.size());
    const QString heading =
        content.cues.size() > 1
            ? sheetWord(QT_TRANSLATE_NOOP("Sheet", "To think of, one at a time"))
            : sheetWord(QT_TRANSLATE_NOOP("Sheet", "To think of"));
    double y = placeHeading(pen, slot, heading) + smallGap / 4.0;
    const double width = sideBySide ? (slot.width - (count - 1.0) * gap) / count : slot.width;
    double bottom = y;
    for (std::size_t i = 0; i < content.cues.size(); ++i) {
        const double shift = sideBySide ? static_cast<double>(i) * (width + gap) : 0.0;
        const double end =
            placeCard(pen, content.cues[i], {slot.left + shift, y, width}, allowance);
        bottom = std::max(bottom, end);
        y = sideBySide ? y : end + smallGap;
    }
    return bottom;
}

} // namespace latemile::ui
