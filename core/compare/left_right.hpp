// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"

#include <optional>

namespace latemile {

/// One measure of one clip, left foot against right.
struct LeftRight {
    double difference{}; ///< left - right, in the measure's unit
    double halfWidth{};  ///< 95 %, the judgement of events of either foot included
    Verdict verdict{};   ///< never NotComparable: one clip has one speed
};

/// Nothing for a measure that must not be told left against right (of the far leg, of the upper
/// body), and with fewer than two confirmed steps of a foot. Welch's interval; the judgement of
/// near and far foot is counted apart. A clear difference is beyond the interval and the measure's
/// floor, with six steps a foot or more, as between two clips.
[[nodiscard]] std::optional<LeftRight> leftAgainstRight(const Readings& readings,
                                                        const Measure& measure);

} // namespace latemile
