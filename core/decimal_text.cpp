// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/decimal_text.hpp"

#include <array>
#include <charconv>

namespace latemile {

std::string decimalText(double value, int decimals)
{
    std::array<char, 352> text{}; // the largest double has 309 digits before the point
    const auto written = std::to_chars(text.data(), text.data() + text.size(), value,
                                       std::chars_format::fixed, decimals);
    return {text.data(), written.ptr};
}

} // namespace latemile
