// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/next_looks.hpp"

#include "core/propose/search_frames.hpp"

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

/// Between two goes cells that came to be meanwhile are looked for: some ten seconds. Each go makes
/// the proposals of all that was seen anew, so that of a long clip goes get longer.
constexpr std::size_t leastOfRest = 60;
constexpr double shareOfSeen = 0.33;

std::size_t mostOfRest(const LookedAt& known)
{
    const auto share =
        static_cast<std::size_t>(shareOfSeen * static_cast<double>(known.frames.size()));
    return std::max(leastOfRest, share);
}

std::vector<FrameNumber> unseen(std::vector<FrameNumber> frames, const LookedAt& known)
{
    std::erase_if(frames, [&known](FrameNumber frame) { return known.frames.contains(frame); });
    return frames;
}

bool areAllAmong(const std::vector<FrameNumber>& frames, const std::vector<FrameNumber>& looks)
{
    const std::set<FrameNumber> among(looks.begin(), looks.end());
    return std::ranges::all_of(frames,
                               [&among](FrameNumber frame) { return among.contains(frame); });
}

} // namespace

NextLooks nextLooks(const FrameIndex& index, const LookedAt& known)
{
    using For = NextLooks::For;
    NextLooks next;
    const auto rest = unseen(framesToSearch(index), known);
    if (auto cells = unseen(known.cells, known); !cells.empty()) {
        // Near and far leg are told by how they move.
        next = {For::Cells, known.frames.empty() ? withNeighbours(cells, index) : cells, false};
    } else if (auto first = firstFrames(index, known.start);
               known.findsContacts && known.frames.empty() && !first.empty()) {
        next = {For::FirstSteps, std::move(first), false};
    } else if (auto thin = unseen(thinFrames(index), known); known.findsContacts && !thin.empty()) {
        next = {For::Contacts, thin, false};
    } else {
        next = {For::Rest, rest, false};
        next.frames.resize(std::min(rest.size(), mostOfRest(known)));
    }
    next.isLast = !next.areForContacts() && areAllAmong(rest, next.frames);
    return next;
}

} // namespace latemile::ui
