// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <cstdio>
#include <string>

namespace latemile {

/// A number for a sentence: at most two decimals, no trailing zeros, '.' whatever the locale:
/// "240", "29.97". A number below 0.01 has two significant figures.
[[nodiscard]] inline std::string inWords(double number)
{
    char text[64];
    const double size = std::abs(number);
    std::snprintf(text, sizeof text, size > 0 && size < 0.01 ? "%.2g" : "%.2f", number);
    std::string words(text);
    for (auto& character : words) {
        character = character == ',' ? '.' : character;
    }
    if (words.find('.') != std::string::npos && words.find('e') == std::string::npos) {
        words.erase(words.find_last_not_of('0') + 1);
        if (words.back() == '.') {
            words.pop_back();
        }
    }
    return words;
}

} // namespace latemile
