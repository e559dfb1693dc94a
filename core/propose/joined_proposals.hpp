// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/follow/follow.hpp"
#include "core/propose/proposals.hpp"

#include <string>

namespace latemile {

/// What the network sees, joined with where following carries the coach's `marks`. Followed marks
/// are far surer as long as they are not lost, and they show how the network errs in every pose:
/// each stretch of the clip's proposals learns from what was followed in the others, so that both
/// remain two witnesses. They are joined by their errors, landmark by landmark and frame by frame;
/// where they are too far apart for that the surer one counts, its error is widened and
/// Doubt::TwoPlaces said. Then legs are led to their bones' lengths. Like proposalsFrom it leaves
/// out what the coach placed.
[[nodiscard]] Proposals joinedProposals(const BodyPaths& paths,
                                        const std::map<MarkKey, Mark>& marks,
                                        const FollowResult& followed);

struct BestProposals {
    Proposals proposals;
    /// Why they go by the network alone though a mark is placed; empty where `goOn` ended the
    /// following, as whoever asked for that knows it.
    std::string remark;
};

/// The best proposals there are: joined ones where a mark is placed and can be followed, else those
/// of proposalsFrom, as also where `options.goOn` ends the following. `clip` is the one the paths
/// are of.
[[nodiscard]] BestProposals bestProposals(ClipReader& clip, const BodyPaths& paths,
                                          const std::map<MarkKey, Mark>& marks,
                                          const FollowOptions& options = {});

} // namespace latemile
