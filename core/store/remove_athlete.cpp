// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/remove_athlete.hpp"

#include "core/store/session_locks.hpp"

#include <system_error>

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
    // Held till all is gone.
    ASSIGN_OR_RETURN(const auto locks, takeAllSessions(folder));
    std::filesystem::remove_all(folder, fault);
    if (fault || std::filesystem::exists(folder, fault)) {
        return fail(Error::Kind::Unsupported, "Not all of " + folder.string() +
                                                  " could be removed: " + fault.message() +
                                                  ". Remove the rest by hand.");
    }
    return {};
}

} // namespace latemile
