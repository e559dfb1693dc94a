// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_locks.hpp"

#include "core/store/athlete_sessions.hpp"

#include <utility>

namespace latemile {

Outcome<std::vector<SessionLock>> takeAllSessions(const std::filesystem::path& athleteFolder)
{
    std::vector<SessionLock> locks;
    for (const auto& session : sessionFoldersOf(athleteFolder)) {
        ASSIGN_OR_RETURN(auto taking, SessionLock::take(session, ownerHere({})));
        if (!taking.lock) {
            return fail(Error::Kind::Inconsistent, "The session " + session.filename().string() +
                                                       " is open at " + taking.heldBy +
                                                       ": close it there first.");
        }
        locks.push_back(std::move(*taking.lock));
    }
    return locks;
}

} // namespace latemile
