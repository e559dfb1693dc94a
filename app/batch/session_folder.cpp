// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/session_folder.hpp"

namespace latemile::batch {

Outcome<OpenedSession> openSessionFolder(const std::filesystem::path& folder)
{
    ASSIGN_OR_RETURN(auto session, readSession(folder));
    // Made absolute first: the folder above "." is not a part of its name.
    std::error_code ignored;
    const auto whole = std::filesystem::weakly_canonical(folder, ignored);
    ASSIGN_OR_RETURN(auto athlete, readAthlete(whole.parent_path() / "athlete.json"));
    return OpenedSession{std::move(session), std::move(athlete)};
}

AthleteFacts factsOf(const Athlete& athlete)
{
    return {athlete.name, athlete.heightCm, athlete.legLengthCm, athlete.massKg};
}

} // namespace latemile::batch
