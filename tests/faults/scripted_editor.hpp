// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session_file.hpp"

#include <algorithm>

namespace latemile::tests {

/// What the scripted editor does as its edit of a number: it places one of a few hundred toes, so
/// that a session stays small however long it goes on, and the number stands in the mark.
inline constexpr int toes = 300;

inline MarkKey toeOf(int edit, BodySide side = BodySide::Near)
{
    return {{edit % toes}, side, Landmark::Toe};
}

inline void edit(Session& session, int number, BodySide side = BodySide::Near)
{
    session.clips[0].marking.marks[toeOf(number, side)] = {
        {static_cast<double>(number), 0.5}, Origin::Placed, std::nullopt};
}

/// The last edit a session holds; 0 before the first.
inline int lastEdit(const Session& session, BodySide side = BodySide::Near)
{
    int last = 0;
    for (const auto& [key, mark] : session.clips[0].marking.marks) {
        if (key.side == side) {
            last = std::max(last, static_cast<int>(mark.at.u));
        }
    }
    return last;
}

/// Whether it holds every edit up to its last, each toe by the newest of its edits.
inline bool isWhole(const Session& session, BodySide side = BodySide::Near)
{
    const int last = lastEdit(session, side);
    for (int number = std::max(1, last - toes + 1); number <= last; ++number) {
        const Mark* mark = session.clips[0].marking.find(toeOf(number, side));
        if (mark == nullptr || mark->at.u != number) {
            return false;
        }
    }
    return true;
}

/// A filming day with one clip and no mark.
inline Session emptyDay()
{
    Session session;
    session.date = "2026-08-29";
    session.clips.resize(1);
    session.clips[0].file = "clips/fresh.mp4";
    session.clips[0].condition = "fresh";
    return session;
}

} // namespace latemile::tests
