// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace latemile {

/// How many decimals an error deserves by the Particle Data Group's rule: its three leading digits
/// 100 to 354 keep two digits, 355 to 949 one, 950 to 999 become 1000 and keep two. Negative:
/// places before the decimal point that are rounded away. Needs a finite error > 0.
[[nodiscard]] int decimalsFor(double error);

/// A value and its error, both rounded to the same place, as text: '.' decimals, '-' for minus,
/// never "-0.0".
struct RoundedPair {
    std::string value;
    std::string error;
    bool operator==(const RoundedPair&) const = default;
};

/// `mostDecimals` caps what is shown; an error that would round to nothing under that cap shows as
/// one unit of the last place, since "± 0" would claim too much. Without an error (0, or not
/// finite) the value is given with `mostDecimals`.
[[nodiscard]] RoundedPair roundedTogether(double value, double error, int mostDecimals = 9);

/// `value` with that many decimals; negative: rounded to tens, hundreds. Half away from zero.
[[nodiscard]] std::string fixedText(double value, int decimals);

} // namespace latemile
