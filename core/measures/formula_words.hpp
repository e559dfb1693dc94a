// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// A word, a number or a sign of a coach's formula.
struct FormulaWord {
    enum class Is { Word, Number, Sign, End };
    Is is{Is::End};
    std::string text;
    double number{};
    std::size_t column{1}; ///< of its first character, from 1
};

/// "column 12: " and what is wrong there; `detail` is the column alone, so that it can be pointed
/// at.
[[nodiscard]] tl::unexpected<Error> formulaFault(std::size_t column, std::string_view what);

/// The words of a formula, the last one End. A minus between two letters belongs to the word
/// (mid-stance); letters may be of either case. Longer than 500 characters is a fault.
Outcome<std::vector<FormulaWord>> formulaWords(std::string_view text);

} // namespace latemile
