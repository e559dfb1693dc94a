// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/figure.hpp"
#include "core/follow/runner_pictures.hpp"
#include "core/marks/marking.hpp"

#include <map>
#include <vector>

namespace latemile {

/// What a coach placed on one side of the body.
struct PlacedSide {
    BodySide side{};
    std::map<std::int64_t, Figure> placed; ///< by frame of the clip
};

/// The placed marks from `first` to `last` that are worth following, side by side: of a far side
/// the foot alone. Empty where there are none.
[[nodiscard]] std::vector<PlacedSide> placedSides(const Marking& marking, FrameNumber first,
                                                  FrameNumber last);

/// The part of the picture to read. Above and below the limbs reach hardly farther than where they
/// are marked; to the sides the runner may pass the whole picture.
[[nodiscard]] FollowedStretch stretchFor(const std::vector<PlacedSide>& sides, FrameNumber first,
                                         FrameNumber last, const ClipFacts& facts);

} // namespace latemile
