// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <map>
#include <memory>
#include <optional>
#include <set>

namespace latemile {

/// What a clip once followed told of how the body moves: small, and outlives the pictures. After
/// a placed mark was moved, added or taken away its landmark is followed anew from it, by the same
/// moves, in a few milliseconds.
class FollowedFlow {
public:
    struct Inside; ///< core/follow/flow_inside.hpp
    explicit FollowedFlow(std::unique_ptr<const Inside> inside);
    ~FollowedFlow();

    /// Of each landmark in `changed` the stretches around its changed frames, up to its
    /// neighbouring anchors on both sides: frames with a placed mark, or with one carried there
    /// straight. For every frame of a stretch a followed mark, or nothing where it is lost or
    /// placed now. Frames, sides and landmarks that were not followed are left out. The result is
    /// that of following the clip anew, but for points of the picture near a mark moved far: those
    /// were chosen by the old one.
    [[nodiscard]] std::map<MarkKey, std::optional<Mark>>
    followedAnew(const Marking& marking, const std::set<MarkKey>& changed) const;

private:
    std::unique_ptr<const Inside> m_inside;
};

} // namespace latemile
