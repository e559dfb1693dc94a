// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_blocks.hpp"

#include "ui/text/words.hpp"

#include <algorithm>
#include <array>

namespace latemile::ui {
namespace {

enum Column { Letter, Name, Unit, Fresh, Fatigued, Change, Verdict, ColumnCount };

/// One row of cells as text; the verdict's sign and the letter's badge are drawn.
using Cells = std::array<QString, ColumnCount>;

Cells headCells()
{
    return {QString(),
            sheetWord(QT_TRANSLATE_NOOP("Sheet", "Measure")),
            sheetWord(QT_TRANSLATE_NOOP("Sheet", "Unit")),
            sheetWord(QT_TRANSLATE_NOOP("Sheet", "Fresh")),
            sheetWord(QT_TRANSLATE_NOOP("Sheet", "Fatigued")),
            sheetWord(QT_TRANSLATE_NOOP("Sheet", "Change")),
            sheetWord(QT_TRANSLATE_NOOP("Sheet", "Verdict"))};
}

Cells cellsOf(const SheetRow& row)
{
    const auto qt = [](const std::string& text) { return QString::fromStdString(text); };
    return {QString(),        qt(row.name),   qt(row.unit),        qt(row.fresh),
            qt(row.fatigued), qt(row.change), wordFor(row.verdict)};
}

bool isNumber(int column)
{
    return column == Fresh || column == Fatigued || column == Change;
}

/// Left edges and widths: every column as wide as its widest cell, the name takes what is left.
struct Columns {
    std::array<double, ColumnCount> left{};
    std::array<double, ColumnCount> width{};
};

Columns columnsFor(const std::vector<Cells>& rows, const SheetType& type, Slot slot)
{
    Columns columns;
    const double sign = 1.4 * type.size(Role::Body);
    columns.width[Letter] = 1.8 * type.size(Role::Body);
    for (int column = Unit; column < ColumnCount; ++column) {
        auto& width = columns.width[static_cast<std::size_t>(column)];
        for (const Cells& cells : rows) {
            width = std::max(
                width, textWidth(cells[static_cast<std::size_t>(column)], type.font(Role::Bold)));
        }
        width += 0.02 * width + twipsPerPoint;
    }
    const double between = gap;
    double used = sign;
    for (const double width : columns.width) {
        used += width;
    }
    columns.width[Name] = slot.width - used - between * (ColumnCount - 2);
    double left = slot.left;
    for (std::size_t column = 0; column < ColumnCount; ++column) {
        left += column == Verdict ? sign : 0.0;
        columns.left[column] = left;
        left += columns.width[column] + (column == Letter ? 0.0 : between);
    }
    return columns;
}

double placeCells(LayoutPen& pen, const Cells& cells, const Columns& columns, double top,
                  bool strong, bool head)
{
    double bottom = top;
    for (std::size_t column = Name; column < ColumnCount; ++column) {
        const bool bold = strong && (column == Change || column == Verdict);
        const auto alignment = isNumber(static_cast<int>(column)) ? Qt::AlignRight : Qt::AlignLeft;
        const Role role = head ? Role::Small : bold ? Role::Bold : Role::Body;
        bottom = std::max(bottom,
                          pen.text(columns.left[column], top, columns.width[column], cells[column],
                                   role, head ? Ink::Quiet : Ink::Text, 1, alignment));
    }
    return bottom;
}

} // namespace

double placeTable(LayoutPen& pen, const SheetContent& content, Slot slot)
{
    std::vector<Cells> rows{headCells()};
    for (const SheetRow& row : content.rows) {
        rows.push_back(cellsOf(row));
    }
    const SheetType& type = pen.type();
    const Columns columns = columnsFor(rows, type, slot);
    const double pad = 0.14 * type.lineHeight(Role::Body);
    const double side = verdictShare * type.size(Role::Body);
    const double badge = 1.15 * type.size(Role::Small);
    double y = placeCells(pen, rows.front(), columns, slot.top, false, true) + pad;
    for (std::size_t i = 0; i < content.rows.size(); ++i) {
        pen.rule(slot.left, y, slot.width);
        const double top = y + pad;
        const double middle = top + type.lineHeight(Role::Body) / 2.0;
        const bool clear = content.rows[i].verdict == latemile::Verdict::ClearChange;
        if (!content.rows[i].letter.empty()) {
            pen.sign({slot.left, middle - badge / 2.0, badge, badge}, SignItem::Kind::Letter,
                     QString::fromStdString(content.rows[i].letter));
        }
        pen.sign(
            {columns.left[Verdict] - 1.4 * type.size(Role::Body), middle - side / 2.0, side, side},
            signOf(content.rows[i].verdict));
        y = placeCells(pen, rows[i + 1], columns, top, clear, false) + pad;
    }
    return y;
}

} // namespace latemile::ui
