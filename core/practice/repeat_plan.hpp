// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/marks/marking.hpp"
#include "core/marks/steps.hpp"

#include <cstdint>
#include <set>
#include <vector>

namespace latemile {

/// One instant of a step that is to be marked again, and the landmarks asked for.
struct RepeatCell {
    StepNumber step;
    Instant instant{};
    FrameNumber frame;
    std::set<MarkKey> asked; ///< near marks the coach had placed on that frame
};

/// Which instants a coach marks a second time without seeing the first: up to `most` of those whose
/// near marks were all placed, as evenly over the steps as there are, then in random order. The
/// same seed gives the same plan. Fewer where the clip has fewer.
[[nodiscard]] std::vector<RepeatCell> repeatPlan(const Marking& marking, const FrameIndex& index,
                                                 std::size_t most, std::uint64_t seed);

/// The clip's contacts with no mark at all: what a repeat begins with.
[[nodiscard]] Marking blankFor(const Marking& marking);

} // namespace latemile
