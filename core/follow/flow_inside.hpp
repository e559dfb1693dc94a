// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/flow_record.hpp"
#include "core/follow/followed_flow.hpp"
#include "core/marks/click_errors.hpp"

namespace latemile {

/// One side of a followed clip: the places it was followed from, and the moves found.
struct FollowedSide {
    BodySide side{};
    FigureSeeds seeds;
    FlowRecords flow;
};

struct FollowedFlow::Inside {
    PictureMap map;
    std::vector<double> times; ///< one a frame
    ClickErrors clicks;        ///< of a placed mark that states none
    std::vector<FollowedSide> sides;

    [[nodiscard]] bool contains(FrameNumber frame) const;
};

} // namespace latemile
