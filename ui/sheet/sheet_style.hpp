// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QImage>
#include <QSizeF>
#include <QString>

namespace latemile::ui {

enum class Paper { A4, Letter };

/// How a sheet is printed; what stands on it is the core's SheetContent.
struct SheetStyle {
    Paper paper{Paper::A4};
    bool largePrint{};    ///< larger type, the stills in one row
    bool blackAndWhite{}; ///< nothing but black, white and grey, pictures too
    bool inches{};        ///< inches and miles instead of centimetres and metres
    QString contact{}; ///< the coach's telephone or address, beside the coach's name; may be empty
    QImage logo{};     ///< the coach's own, at the top right corner; may be null
};

/// Twips, 1/20 of a printer's point: the unit of everything laid out on a sheet. Type in whole
/// twips keeps its unhinted widths, so that page, picture and screen break lines alike.
inline constexpr double twipsPerPoint = 20.0;
inline constexpr double twipsPerInch = 1440.0;

/// A4: 210 x 297 mm; Letter: 8.5 x 11 in; in twips.
[[nodiscard]] QSizeF paperSize(Paper paper);

} // namespace latemile::ui
