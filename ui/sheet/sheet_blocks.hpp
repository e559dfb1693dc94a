// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/sheet/sheet_layout.hpp"

namespace latemile::ui {

/// Puts items onto a layout and tells how high they became. Laying a block out onto a spare layout
/// measures it.
class LayoutPen {
public:
    LayoutPen(SheetLayout& layout, const SheetType& type) : m_layout(layout), m_type(type) {}

    /// Returns the bottom of the text; empty text takes no room.
    double text(double left, double top, double width, const QString& text, Role role,
                Ink ink = Ink::Text, int maxLines = 0, Qt::Alignment alignment = Qt::AlignLeft);
    void rule(double left, double top, double width);
    void tint(const QRectF& rect);
    void sign(const QRectF& rect, SignItem::Kind kind, const QString& letter = {});
    [[nodiscard]] const SheetType& type() const { return m_type; }
    [[nodiscard]] SheetLayout& layout() const { return m_layout; }

private:
    SheetLayout& m_layout;
    const SheetType& m_type;
};

/// A word of the page itself in the coach's language; marked by QT_TRANSLATE_NOOP("Sheet", ...).
[[nodiscard]] QString sheetWord(const char* word);

/// Where a block may stand: its left, top and width; it returns its bottom.
struct Slot {
    double left{};
    double top{};
    double width{};
};

/// How much of the optional text there is room for.
struct Allowance {
    bool findings{true};
    int noteLines{6};  ///< 0: all of it
    int drillLines{0}; ///< 0: all of it
};

inline constexpr double gap = 8.0 * twipsPerPoint; ///< the sheet's grid
inline constexpr double smallGap = gap / 2.0;

/// Side of a verdict's sign as a share of the body type.
inline constexpr double verdictShare = 0.62;
[[nodiscard]] SignItem::Kind signOf(Verdict verdict);

double placeHeading(LayoutPen& pen, Slot slot, const QString& text);
double placeHeader(LayoutPen& pen, const SheetContent& content, const SheetStyle& style, Slot slot);
double placeFindings(LayoutPen& pen, const SheetContent& content, Slot slot);
/// The cue cards one under the other, or side by side; a clinician's notice in their place.
double placeCues(LayoutPen& pen, const SheetContent& content, Slot slot, const Allowance& allowance,
                 bool sideBySide);
double placeTable(LayoutPen& pen, const SheetContent& content, Slot slot);
/// The coach's note beside the cautions, or the cautions alone in two columns.
double placeCautions(LayoutPen& pen, const SheetContent& content, Slot slot,
                     const Allowance& allowance);
double placeFooter(LayoutPen& pen, const SheetContent& content, const SheetStyle& style, Slot slot);
/// Two rows of two, or one row of four.
double placeStills(LayoutPen& pen, const SheetContent& content, Slot slot, bool inOneRow);

} // namespace latemile::ui
