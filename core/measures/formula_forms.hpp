// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_formula.hpp"

#include <span>
#include <string>
#include <string_view>

namespace latemile {

/// A way to write one value of a coach's formula. The parser reads by this table; help and the
/// window tell it, so that what is told is what is read.
struct FormulaForm {
    std::string_view word;    ///< by which it is known: "lean"
    std::string_view pattern; ///< "lean POINT to POINT"; POINT, FORMULA and PHASE stand for others
    std::string_view meaning; ///< unit, sign and what it is
    OwnFormula::Node::Is is{};
    OwnFormula::Kind kind{};
};
/// Of points at an instant first, then the extremes of a phase, then what belongs to the athlete.
[[nodiscard]] std::span<const FormulaForm> formulaForms();
/// The form that begins with this word; null where none does.
[[nodiscard]] const FormulaForm* formStartingWith(std::string_view word);

[[nodiscard]] std::span<const OwnFormula::Phase> formulaPhases();
[[nodiscard]] std::string_view nameOf(OwnFormula::Phase phase); ///< "stance", "swing", "stride"

// The words of each kind as a sentence lists them: "contact, mid-stance, toe-off and mid-swing".
[[nodiscard]] std::string landmarksInWords();
[[nodiscard]] std::string instantsInWords();
[[nodiscard]] std::string phasesInWords();

} // namespace latemile
