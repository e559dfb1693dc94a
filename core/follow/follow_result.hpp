// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

class FollowedFlow;

/// Frames on which a landmark could not be followed, or not surely.
struct FollowGap {
    enum class Kind {
        Lost,     ///< no mark: covered, out of the picture, or too far from any placed mark
        Bridged,  ///< not seen for a short while: interpolated between what was seen
        Doubtful, ///< two places from before and from behind, or a bone of another length
    };
    Kind kind{};
    BodySide side{};
    Landmark landmark{};
    FrameNumber first;
    FrameNumber last;
    bool operator==(const FollowGap&) const = default;
};
[[nodiscard]] std::string_view nameOf(FollowGap::Kind kind); ///< "lost", "bridged", "doubtful"
/// "The near wrist was lost on frames 12 to 40."
[[nodiscard]] std::string sentenceOf(const FollowGap& gap);

struct FollowResult {
    /// Followed marks alone, each with its standard error; where a mark was placed there is none.
    std::map<MarkKey, Mark> marks;
    std::vector<FollowGap> gaps; ///< by side and landmark, in order of frame
    /// With it a corrected mark is followed anew without the pictures.
    std::shared_ptr<const FollowedFlow> flow{};
    /// Of each of the marks the standard error of following alone, without that of the clicks.
    std::map<MarkKey, double> driftPx{};
};

} // namespace latemile
