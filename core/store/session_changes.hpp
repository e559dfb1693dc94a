// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/json_file.hpp"
#include "core/store/session.hpp"

namespace latemile {

/// What turns one state of a session into the next, as small as the edit was: marks one by one,
/// all else of a clip or session by its part. Null where nothing differs.
///   {"session": {...}}                         what the session says beside its clips
///   {"clips": [{"clip": 0, "marks": [...], "no_marks": [...], "unseen": [...],
///               "contacts": [...], "rest": {...}}]}
///   {"whole": {...}}                           where clips came, went or moved
[[nodiscard]] nlohmann::json changesBetween(const Session& before, const Session& now);
/// The change that makes `now` out of whatever was there.
[[nodiscard]] nlohmann::json wholeChange(const Session& now);
/// The session after the change; one that does not fit the session is an Error.
Outcome<Session> withChanges(Session session, const JsonField& changes);

/// What differs, in a coach's words: "12 marks and contacts"; empty where nothing does.
[[nodiscard]] std::string wordsForChanges(const Session& before, const Session& now);

} // namespace latemile
