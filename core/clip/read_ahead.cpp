// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/read_ahead.hpp"

#include <algorithm>

namespace latemile {

namespace {

/// Frames read ahead at the least: a second of play at 60 pictures a second.
constexpr std::int64_t leastAhead = 60;
/// Steps back from the start of a group should find the group before it ready.
constexpr std::int64_t nearGroupStart = 20;

} // namespace

std::optional<std::int64_t> nextToRead(const ReadAheadView& view)
{
    const auto head = view.held.head();
    const auto reach = view.held.capacity() / 2 - 1;
    if (reach < 1) {
        return std::nullopt;
    }
    const auto isWanted = [&](std::int64_t rank) {
        return !view.held.holds(rank) && !view.isLost(rank);
    };
    const auto start = view.groupStart(head);
    const auto before = start > 0 ? view.groupStart(start - 1) : 0;
    const auto groupLength = std::max(head - start, start - before);
    const auto ahead = std::min(reach, std::max(leastAhead, groupLength + groupLength / 2));
    const auto firstAhead = [&]() -> std::optional<std::int64_t> {
        for (auto rank = head + 1; rank <= std::min(head + ahead, view.frames - 1); ++rank) {
            if (isWanted(rank)) {
                return rank;
            }
        }
        return std::nullopt;
    };
    // Decoding towards a frame passes all of its group before it: one such run fills the group.
    const auto lastBehind = [&](std::int64_t downTo) -> std::optional<std::int64_t> {
        for (auto rank = head - 1; rank >= std::max({downTo, head - reach, std::int64_t{0}});
             --rank) {
            if (isWanted(rank)) {
                return rank;
            }
        }
        return std::nullopt;
    };
    if (view.travel == Travel::Backward) {
        const auto behind = lastBehind(std::min(before, head - leastAhead));
        return behind ? behind : firstAhead();
    }
    const auto rank = firstAhead();
    return rank ? rank : lastBehind(head - start < nearGroupStart ? before : start);
}

} // namespace latemile
