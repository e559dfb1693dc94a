// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/sheet/sheet_style.hpp"

#include <QColor>
#include <QFont>
#include <QPainter>
#include <QRectF>
#include <QString>

namespace latemile::ui {

/// The sheet's type: one family, three sizes, two weights.
enum class Role { Title, Body, Bold, Small, SmallBold };

/// Colours by purpose; every text colour has at least 4.5:1 against white and tint.
struct SheetInks {
    QColor text, quiet, rule, tint, fresh, fatigued;
};
[[nodiscard]] SheetInks sheetInks(const SheetStyle& style);

/// Noto Sans, whose figures are all of one width and whose files embed as they are; else what the
/// system offers in its place.
class SheetType {
public:
    /// `scale` of 1 is the style's own size; smaller ones make a full page fit.
    SheetType(const SheetStyle& style, double scale);

    [[nodiscard]] QFont font(Role role) const;
    [[nodiscard]] double size(Role role) const;       ///< twips
    [[nodiscard]] double lineHeight(Role role) const; ///< twips

private:
    double m_title{};
    double m_body{};
    double m_small{};
};

/// `text` cut with an ellipsis so that it takes at most `maxLines` lines of `width`; 0: as many as
/// it needs. A person's text stays plain text.
[[nodiscard]] QString fitted(const QString& text, const QFont& font, double width, int maxLines);
/// How many lines `text` takes at that width.
[[nodiscard]] int lineCount(const QString& text, const QFont& font, double width);
[[nodiscard]] double textWidth(const QString& text, const QFont& font);
/// Paints `text` from the top of `rect`, line under line, in the painter's pen.
void paintText(QPainter& painter, const QRectF& rect, const QString& text, const SheetType& type,
               Role role, Qt::Alignment alignment);

} // namespace latemile::ui
