// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/tokens.hpp"

#include <QPalette>

#include <algorithm>
#include <cmath>

namespace latemile::ui {

Tokens lightTokens()
{
    return {.paper = QColor(0xf4, 0xf4, 0xf2),
            .card = QColor(0xff, 0xff, 0xff),
            .well = QColor(0x2a, 0x2d, 0x30),
            .line = QColor(0xdc, 0xdc, 0xd8),
            .frame = QColor(0x84, 0x87, 0x8a),
            .text = QColor(0x1d, 0x20, 0x23),
            .quiet = QColor(0x59, 0x5e, 0x63),
            .chosen = QColor(0xe3, 0xe4, 0xe0),
            .fresh = QColor(0x00, 0x72, 0xb2),
            .fatigued = QColor(0xd5, 0x5e, 0x00),
            .freshText = QColor(0x00, 0x66, 0xa1),
            .fatiguedText = QColor(0xa8, 0x48, 0x00),
            .proposal = QColor(0x7c, 0x80, 0x84),
            .good = QColor(0x1c, 0x6b, 0x45),
            .doubt = QColor(0x7a, 0x58, 0x00),
            .bad = QColor(0xa8, 0x2a, 0x2a)};
}

Tokens darkTokens()
{
    return {.paper = QColor(0x1b, 0x1d, 0x1f),
            .card = QColor(0x25, 0x28, 0x2b),
            .well = QColor(0x10, 0x11, 0x12),
            .line = QColor(0x3a, 0x3e, 0x42),
            .frame = QColor(0x7d, 0x83, 0x89),
            .text = QColor(0xec, 0xed, 0xee),
            .quiet = QColor(0xae, 0xb4, 0xba),
            .chosen = QColor(0x3a, 0x3f, 0x44),
            .fresh = QColor(0x2b, 0x95, 0xd3),
            .fatigued = QColor(0xe8, 0x73, 0x1a),
            .freshText = QColor(0x6c, 0xbc, 0xee),
            .fatiguedText = QColor(0xf5, 0x9a, 0x56),
            .proposal = QColor(0x96, 0x9b, 0xa0),
            .good = QColor(0x74, 0xc9, 0x9a),
            .doubt = QColor(0xe3, 0xbd, 0x5a),
            .bad = QColor(0xf2, 0x8b, 0x82)};
}

Tokens tokensOf(const QPalette& palette)
{
    return palette.color(QPalette::Window).lightness() < 128 ? darkTokens() : lightTokens();
}

namespace {

double linear(double channel)
{
    return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& colour)
{
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

} // namespace

double contrastOf(const QColor& a, const QColor& b)
{
    const double first = luminance(a);
    const double second = luminance(b);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

} // namespace latemile::ui
