// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/prepared_clip.hpp"

namespace latemile {

/// The near foot's straight path while it is flat on the ground, 25 to 50 % of one stance.
struct FlatFootPath {
    double speed{};   ///< cm/s, x
    double speedSe{}; ///< from the marks
    double rise{};    ///< cm/s, y
};

/// By the toe, or by the heel where the toe is marked on fewer than three of these frames; nothing
/// where the heel is too, and for a step of the far foot, without toe-off or before a gap.
[[nodiscard]] std::optional<FlatFootPath> flatFootPath(const PreparedClip& clip, const Step& step);

} // namespace latemile
