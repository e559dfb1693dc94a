// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/follow.hpp"
#include "core/marks/marking.hpp"

#include <vector>

namespace latemile::ui {

/// How sure a cell's followed marks are.
struct CellDoubt {
    int followed{};    ///< of the landmarks asked for
    int missing{};     ///< neither marked nor said to be not visible
    double sePx{};     ///< the largest standard error of the followed ones, pixels
    bool isDoubtful{}; ///< one was found in two different places
    bool operator==(const CellDoubt&) const = default;

    /// The larger, the sooner the coach should look: doubtful ones first, then those with a
    /// landmark missing, then by their error.
    [[nodiscard]] double urgency() const;
};

/// `gaps` as following told them.
[[nodiscard]] CellDoubt doubtOf(const Marking& marking, FrameNumber frame,
                                const std::vector<Landmark>& asked,
                                const std::vector<FollowGap>& gaps);

} // namespace latemile::ui
