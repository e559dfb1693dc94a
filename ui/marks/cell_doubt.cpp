// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/cell_doubt.hpp"

#include <algorithm>

namespace latemile::ui {
namespace {

/// Larger than any error in pixels.
constexpr double aMissingOne = 1e6;
constexpr double aDoubtfulOne = 2e6;

bool isDoubtful(const std::vector<FollowGap>& gaps, FrameNumber frame, Landmark landmark)
{
    return std::ranges::any_of(gaps, [&](const FollowGap& gap) {
        return gap.kind == FollowGap::Kind::Doubtful && gap.side == BodySide::Near &&
               gap.landmark == landmark && gap.first <= frame && frame <= gap.last;
    });
}

} // namespace

double CellDoubt::urgency() const
{
    return sePx + (isDoubtful ? aDoubtfulOne : (missing > 0 ? aMissingOne : 0.0));
}

CellDoubt doubtOf(const Marking& marking, FrameNumber frame, const std::vector<Landmark>& asked,
                  const DoubtBounds& bounds)
{
    CellDoubt doubt;
    for (const Landmark landmark : asked) {
        const MarkKey key{frame, BodySide::Near, landmark};
        const Mark* mark = marking.find(key);
        if (mark == nullptr) {
            doubt.missing += marking.unseen.contains(key) ? 0 : 1;
        } else if (mark->origin == Origin::Followed) {
            ++doubt.followed;
            doubt.sePx = std::max(doubt.sePx, mark->sePx.value_or(0.0));
            doubt.isDoubtful = doubt.isDoubtful || isDoubtful(bounds.gaps, frame, landmark);
        } else if (mark->origin == Origin::Proposed && mark->sePx) {
            ++doubt.proposed;
            doubt.sePx = std::max(doubt.sePx, *mark->sePx);
            doubt.isDoubtful =
                doubt.isDoubtful || (bounds.proposalPx && *mark->sePx >= *bounds.proposalPx);
        }
    }
    return doubt;
}

} // namespace latemile::ui
