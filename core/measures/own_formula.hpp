// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/peak_fit.hpp"
#include "core/outcome.hpp"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace latemile {

/// A coach's own formula over points, in plain words:
///
///     ankle ahead of hip at contact
///     hang hip to knee at contact - hang knee to ankle at contact
///     100 * (hip above ground at mid-stance) / leg
///     highest (wrist above hip) in stride
///
///     formula  = product { ("+" | "-") product }
///     product  = factor { ("*" | "/") factor }
///     factor   = "-" factor | value [ "at" instant ]
///     value    = number | "leg" | "trunk" | "flat foot" | "(" formula ")"
///              | ("highest" | "lowest") "(" formula ")" "in" phase
///              | point "ahead" "of" point    cm, + forwards (from behind: to the athlete's right)
///              | point "above" (point | "ground")                                     cm, + up
///              | "distance" point "to" point                                          cm
///              | "lean"  point "to" point    deg off plumb, upwards to the second, + forwards
///              | "hang"  point "to" point    deg off plumb, downwards to the second, + forwards
///              | "slope" point "to" point    deg off level, + second point higher
///              | "angle" point point point   deg at the middle one, 180 is straight
///     point    = [ "left" | "right" ] landmark;  without a side the near one, filmed from a side
///     instant  = "contact" | "mid-stance" | "toe-off" | "mid-swing"
///     phase    = "stance" | "swing" | "stride"
///
/// "at" belongs to the one value before it, or to all of a bracket. Every measured value has an
/// "at" or stands in a highest or lowest. Lengths and angles are not added to each other; a plain
/// number takes the unit of what it is added to; a length by a length is a plain number.
struct OwnFormula {
    enum class Kind { Number, Length, Angle };
    enum class Phase { Stance, Swing, Stride };
    struct Node {
        enum class Is {
            Number,
            Leg,
            Trunk,
            FlatFoot,
            Sum,
            Difference,
            Product,
            Quotient,
            Minus,
            Ahead,
            Above,
            AboveGround,
            Distance,
            Lean,
            Hang,
            Slope,
            Angle,
            Highest,
            Lowest
        };
        Is is{};
        std::size_t column{1}; ///< where its text begins, from 1
        double number{};
        Kind kind{};
        bool constant{true}; ///< holds no measured value, so it takes any unit
        std::vector<Landmark> landmarks{};
        std::vector<BodySide> sides{}; ///< one a landmark
        std::optional<Instant> at{};
        Phase phase{};
        std::vector<Node> parts{};
    };
    Node root;
    std::vector<Landmark> landmarks; ///< all it asks for, each once
    std::vector<Instant> instants;   ///< likewise
    bool bySides{};                  ///< names left or right: a clip from behind or from the front
    bool wholeStride{};              ///< needs the next contact of the same foot
};

/// Faults say at which column and what to write: "column 12: 'anke' is no landmark; ...", and
/// hold the column alone as their detail.
Outcome<OwnFormula> parseFormula(std::string_view text);

/// Its value from a step's evidence, which remembers what was used and what was missing, as of any
/// formula of the table.
[[nodiscard]] double valueOf(const OwnFormula& formula, Evidence& step);

} // namespace latemile
