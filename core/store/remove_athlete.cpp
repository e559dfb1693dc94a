// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/remove_athlete.hpp"

#include "core/store/athlete_sessions.hpp"
#include "core/store/session_lock.hpp"

#include <system_error>
#include <utility>
#include <vector>

namespace latemile {

Outcome<void> removeAthlete(const std::filesystem::path& folder)
{
    std::error_code fault;
    // Of a link only the link would go, and the files would stay.
    if (std::filesystem::is_symlink(folder, fault) ||
        !std::filesystem::is_regular_file(folder / "athlete.json", fault)) {
        return fail(Error::Kind::NotFound,
                    "The folder " + folder.string() +
                        " is no athlete's own: remove what it stands for by hand.");
    }
    std::vector<SessionLock> locks; // held till all is gone
    for (const auto& session : sessionFoldersOf(folder)) {
        ASSIGN_OR_RETURN(auto taking, SessionLock::take(session, ownerHere({})));
        if (!taking.lock) {
            return fail(Error::Kind::Inconsistent, "The session " + session.filename().string() +
                                                       " is open at " + taking.heldBy +
                                                       ": close it there first.");
        }
        locks.push_back(std::move(*taking.lock));
    }
    std::filesystem::remove_all(folder, fault);
    if (fault || std::filesystem::exists(folder, fault)) {
        return fail(Error::Kind::Unsupported, "Not all of " + folder.string() +
                                                  " could be removed: " + fault.message() +
                                                  ". Remove the rest by hand.");
    }
    return {};
}

} // namespace latemile
