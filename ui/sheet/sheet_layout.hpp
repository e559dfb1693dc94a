// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/sheet/sheet_content.hpp"
#include "ui/sheet/sheet_type.hpp"

#include <QRectF>
#include <QString>

#include <vector>

namespace latemile::ui {

enum class Ink { Text, Quiet };

/// Text already broken and cut to fit its rectangle.
struct TextItem {
    QRectF rect;
    QString text;
    Role role{};
    Ink ink{};
    Qt::Alignment alignment{};
};

/// A filled rectangle: hairlines and the grounds of cards.
struct FillItem {
    enum class Kind { Rule, Tint };
    QRectF rect;
    Kind kind{};
};

/// A small drawn sign: a verdict's, or the line sample of a condition.
struct SignItem {
    enum class Kind { Clear, Within, TooFew, NotComparable, Fresh, Fatigued, Letter };
    QRectF rect;
    Kind kind{};
    QString letter{}; ///< of Kind::Letter
};

struct StillItem {
    QRectF rect;
    std::size_t still{}; ///< index into SheetContent::stills
};

/// A sheet laid out: where everything stands, in twips from the page's top left corner. Made of
/// values, so that a test can ask whether anything overlaps or leaves the page.
struct SheetLayout {
    QSizeF page;
    QRectF printable;
    double scale{1.0}; ///< of the type, below 1 where the page was full
    std::vector<TextItem> texts;
    std::vector<FillItem> fills;
    std::vector<SignItem> signs;
    std::vector<StillItem> stills;
    QRectF logo;
    QRectF footer;
};

/// Lays out one page, always one: type shrinks by steps, then the coach's note and the drills are
/// cut with an ellipsis. Expects the content in the style's units (toldIn).
[[nodiscard]] SheetLayout layOutSheet(const SheetContent& content, const SheetStyle& style);

} // namespace latemile::ui
