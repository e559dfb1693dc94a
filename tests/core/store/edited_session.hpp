// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

namespace latemile::tests {

/// A filming day with two clips of the fictional runner Ilse Varga, and `marks` marks in the first.
inline Session dayWithMarks(int marks)
{
    Session session;
    session.date = "2026-08-29";
    session.coach = "R. Vale";
    session.note = "windy, \"fine\" otherwise";
    for (const char* condition : {"fresh", "fatigued"}) {
        SessionClip clip;
        clip.file = std::string("clips/") + condition + ".mp4";
        clip.condition = condition;
        session.clips.push_back(clip);
    }
    for (int i = 0; i < marks; ++i) {
        const auto landmark = i % 2 == 0 ? Landmark::Hip : Landmark::Knee;
        session.clips[0].marking.marks[{{i / 2}, BodySide::Near, landmark}] = {
            {600.0 + i / 7.0, 310.0 - i / 3.0}, Origin::Placed, std::nullopt};
    }
    return session;
}

/// The same day after the coach placed the near toe on a frame.
inline Session withToe(Session session, int frame)
{
    session.clips[0].marking.marks[{{frame}, BodySide::Near, Landmark::Toe}] = {
        {100.0 + frame, 0.1 + 0.2}, Origin::Placed, 1.5};
    return session;
}

} // namespace latemile::tests
