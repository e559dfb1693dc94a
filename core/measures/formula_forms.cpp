// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/formula_forms.hpp"

#include <algorithm>
#include <array>

namespace latemile {

namespace {

using Is = OwnFormula::Node::Is;
using Kind = OwnFormula::Kind;
using Phase = OwnFormula::Phase;

constexpr std::array forms{
    FormulaForm{"ahead", "POINT ahead of POINT",
                "cm, above zero when the first is further forward (filmed from behind: further to "
                "the athlete's right)",
                Is::Ahead, Kind::Length},
    FormulaForm{"above", "POINT above POINT", "cm, above zero when the first is higher", Is::Above,
                Kind::Length},
    FormulaForm{"above", "POINT above ground", "cm over the ground", Is::AboveGround, Kind::Length},
    FormulaForm{"distance", "distance POINT to POINT", "cm between the two, always above zero",
                Is::Distance, Kind::Length},
    FormulaForm{"lean", "lean POINT to POINT",
                "degrees off plumb, looking up from the first to the second; above zero when the "
                "second is ahead",
                Is::Lean, Kind::Angle},
    FormulaForm{"hang", "hang POINT to POINT",
                "degrees off plumb, looking down from the first to the second; above zero when the "
                "second is ahead",
                Is::Hang, Kind::Angle},
    FormulaForm{"slope", "slope POINT to POINT",
                "degrees off level; above zero when the second is higher", Is::Slope, Kind::Angle},
    FormulaForm{"angle", "angle POINT POINT POINT", "degrees at the middle one; 180 is straight",
                Is::Angle, Kind::Angle},
    FormulaForm{"highest", "highest (FORMULA) in PHASE", "the largest value over the phase",
                Is::Highest, Kind::Number},
    FormulaForm{"lowest", "lowest (FORMULA) in PHASE", "the smallest value over the phase",
                Is::Lowest, Kind::Number},
    FormulaForm{"leg", "leg", "cm, the athlete's leg length", Is::Leg, Kind::Length},
    FormulaForm{"trunk", "trunk", "cm, mean distance of shoulder and hip in this clip", Is::Trunk,
                Kind::Length},
    FormulaForm{"flat", "flat foot", "degrees, the sole's slope while the near foot lies flat",
                Is::FlatFoot, Kind::Angle},
};

constexpr std::array phases{Phase::Stance, Phase::Swing, Phase::Stride};

/// "a, b and c".
template <class Name>
std::string listed(std::size_t count, Name name)
{
    std::string text;
    for (std::size_t i = 0; i < count; ++i) {
        text += i == 0 ? "" : i + 1 == count ? " and " : ", ";
        text += name(i);
    }
    return text;
}

} // namespace

std::span<const FormulaForm> formulaForms()
{
    return forms;
}

const FormulaForm* formStartingWith(std::string_view word)
{
    const auto found = std::ranges::find_if(forms, [word](const FormulaForm& form) {
        return form.word == word && form.pattern.starts_with(word);
    });
    return found == forms.end() ? nullptr : &*found;
}

std::span<const OwnFormula::Phase> formulaPhases()
{
    return phases;
}

std::string_view nameOf(OwnFormula::Phase phase)
{
    switch (phase) {
    case Phase::Stance:
        return "stance";
    case Phase::Swing:
        return "swing";
    case Phase::Stride:
        return "stride";
    }
    return {};
}

std::string landmarksInWords()
{
    return listed(landmarkCount, [](std::size_t i) { return nameOf(static_cast<Landmark>(i)); });
}

std::string instantsInWords()
{
    return listed(instantCount, [](std::size_t i) { return nameOf(static_cast<Instant>(i)); });
}

std::string phasesInWords()
{
    return listed(phases.size(), [](std::size_t i) { return nameOf(phases[i]); });
}

} // namespace latemile
