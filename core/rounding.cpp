// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/rounding.hpp"

#include "core/decimal_text.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {
namespace {

/// Moves the decimal point without the drift of repeated multiplication.
double scaledByTen(double value, int places)
{
    return places >= 0 ? value * std::pow(10.0, places) : value / std::pow(10.0, -places);
}

/// A hair towards away-from-zero, so that 0.125 typed in decimals rounds as it reads even where its
/// nearest double lies just below.
double roundedAsRead(double scaled)
{
    return std::round(scaled * (1.0 + 1e-12));
}

} // namespace

int decimalsFor(double error)
{
    int exponent = static_cast<int>(std::floor(std::log10(error)));
    double leading = roundedAsRead(scaledByTen(error, 2 - exponent));
    if (leading >= 1000.0) {
        leading /= 10.0;
        ++exponent;
    }
    if (leading < 100.0) { // log10 of a power of ten may fall on either side
        leading *= 10.0;
        --exponent;
    }
    const bool oneDigit = leading >= 355.0 && leading < 950.0;
    const bool oneUp = leading >= 950.0;
    return (oneDigit || oneUp ? 0 : 1) - exponent;
}

std::string fixedText(double value, int decimals)
{
    double rounded = scaledByTen(roundedAsRead(scaledByTen(value, decimals)), -decimals);
    if (rounded == 0.0) {
        rounded = 0.0; // drops the sign of a negative zero
    }
    return decimalText(rounded, std::max(decimals, 0));
}

RoundedPair roundedTogether(double value, double error, int mostDecimals)
{
    if (!std::isfinite(error) || error <= 0.0) {
        return {fixedText(value, mostDecimals), fixedText(0.0, mostDecimals)};
    }
    const int decimals = std::min(decimalsFor(error), mostDecimals);
    const double smallest = std::pow(10.0, -decimals);
    return {fixedText(value, decimals), fixedText(std::max(error, smallest), decimals)};
}

} // namespace latemile
