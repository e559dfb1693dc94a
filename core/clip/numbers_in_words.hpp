// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/decimal_text.hpp"

#include <charconv>
#include <cmath>
#include <string>

namespace latemile {

/// A number for a sentence: at most two decimals, no trailing zeros, '.' whatever the locale:
/// "240", "29.97". A number below 0.01 has two significant figures.
[[nodiscard]] inline std::string inWords(double number)
{
    const double size = std::abs(number);
    if (size > 0 && size < 0.01) {
        char text[64];
        const auto written =
            std::to_chars(text, text + sizeof text, number, std::chars_format::general, 2);
        return {text, written.ptr};
    }
    auto words = decimalText(number, 2);
    if (words.find('.') != std::string::npos) {
        words.erase(words.find_last_not_of('0') + 1);
        if (words.back() == '.') {
            words.pop_back();
        }
    }
    return words;
}

} // namespace latemile
