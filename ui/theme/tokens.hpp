// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>

class QPalette;

namespace latemile::ui {

/// Distances are multiples of this, logical pixels.
inline constexpr int gridStep = 8;
/// The only three sizes of text, logical pixels.
inline constexpr int smallText = 12;
inline constexpr int bodyText = 14;
inline constexpr int titleText = 20;

/// The colours of one theme. Controls are ink on paper; colour is kept for what the clips show.
/// Text colours stand at 4.5:1 or more against `paper` and `card`, shapes at 3:1 or more.
struct Tokens {
    QColor paper; ///< behind everything
    QColor card;  ///< fields, tables, lists
    QColor well;  ///< around a picture
    QColor line;  ///< hair lines between things
    QColor frame; ///< outline of a control
    QColor text;
    QColor quiet;        ///< text of second rank
    QColor chosen;       ///< behind what is selected
    QColor fresh;        ///< #0072B2, shapes: solid and filled
    QColor fatigued;     ///< #D55E00, shapes: dashed and hollow
    QColor freshText;    ///< the same two for letters
    QColor fatiguedText; ///<
    QColor proposal;     ///< grey dots
    QColor good;         ///< states, always with a word or a shape beside them
    QColor doubt;
    QColor bad;
};

[[nodiscard]] Tokens lightTokens();
[[nodiscard]] Tokens darkTokens();
/// The tokens of the theme a palette belongs to.
[[nodiscard]] Tokens tokensOf(const QPalette& palette);

/// Contrast of two colours as WCAG 2.1 defines it, 1 to 21.
[[nodiscard]] double contrastOf(const QColor& a, const QColor& b);

} // namespace latemile::ui
