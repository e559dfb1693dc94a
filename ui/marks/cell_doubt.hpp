// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/follow.hpp"
#include "core/marks/marking.hpp"

#include <optional>
#include <vector>

namespace latemile::ui {

/// How sure a cell's followed and proposed marks are.
struct CellDoubt {
    int followed{};    ///< of the landmarks asked for
    int proposed{};    ///< of them, with a stated error
    int missing{};     ///< neither marked nor said to be not visible
    double sePx{};     ///< the largest standard error of both, pixels
    bool isDoubtful{}; ///< one was followed to two different places, or the network doubts it
    bool operator==(const CellDoubt&) const = default;

    /// The larger, the sooner the coach should look: doubtful ones first, then those with a
    /// landmark missing, then by their error.
    [[nodiscard]] double urgency() const;
    /// Marks with an error that wait for the coach's word.
    [[nodiscard]] int guessed() const { return followed + proposed; }
};

/// What makes a mark doubtful: `gaps` as following told them, and from which standard error on a
/// proposal is one (pixels; none: no proposal is).
struct DoubtBounds {
    std::vector<FollowGap> gaps;
    std::optional<double> proposalPx;
};
[[nodiscard]] CellDoubt doubtOf(const Marking& marking, FrameNumber frame,
                                const std::vector<Landmark>& asked, const DoubtBounds& bounds);

} // namespace latemile::ui
