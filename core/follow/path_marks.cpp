// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/path_marks.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// Joins single frames of one kind to stretches.
class Gaps {
public:
    Gaps(std::vector<FollowGap>& list, BodySide side, Landmark landmark)
        : m_list(list), m_side(side), m_landmark(landmark)
    {
    }
    void add(FollowGap::Kind kind, FrameNumber frame)
    {
        const bool goesOn =
            m_open && m_list.back().kind == kind && m_list.back().last.value + 1 == frame.value;
        if (goesOn) {
            m_list.back().last = frame;
        } else {
            m_list.push_back({kind, m_side, m_landmark, frame, frame});
            m_open = true;
        }
    }

private:
    std::vector<FollowGap>& m_list;
    BodySide m_side;
    Landmark m_landmark;
    bool m_open{};
};

} // namespace

double clickVariance(const Marking& marking, const MarkKey& placed, const ClickErrors& clicks,
                     const PictureMap& map)
{
    const auto* mark = marking.find(placed);
    const double px =
        mark && mark->sePx
            ? *mark->sePx
            : std::max(0.5, clicks.of(placed.landmark) * map.pixelsPerCm / map.reduction);
    return px * px * map.reduction * map.reduction;
}

void addPath(FollowResult& result, BodySide side, Landmark landmark, const FollowedPath& path,
             const PictureMap& map, const Marking& marking)
{
    Gaps gaps(result.gaps, side, landmark);
    for (std::size_t f = 0; f < path.size(); ++f) {
        const MarkKey key{{map.first.value + static_cast<std::int64_t>(f)}, side, landmark};
        const auto* there = marking.find(key);
        if (there && there->origin == Origin::Placed) {
            continue;
        }
        const auto& point = path[f];
        if (!point) {
            gaps.add(FollowGap::Kind::Lost, key.frame);
            continue;
        }
        if (point->isDoubtful || point->isBridged) {
            gaps.add(point->isBridged ? FollowGap::Kind::Bridged : FollowGap::Kind::Doubtful,
                     key.frame);
        }
        const double se = std::sqrt(point->variance + point->clickVariance) / map.reduction;
        result.marks[key] = Mark{map.upright(point->at), Origin::Followed, se};
        result.driftPx[key] = std::sqrt(point->variance) / map.reduction;
    }
}

} // namespace latemile
