// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QString>

#include <filesystem>
#include <vector>

namespace latemile::ui {

struct AthleteEntry {
    std::filesystem::path folder;
    Athlete athlete;
};

struct SessionEntry {
    std::filesystem::path folder;
    QString date;  ///< ISO 8601
    QString clips; ///< "2 clips"
    QString toDo;  ///< the next thing, or "ready for the sheet"; a fault in words
};

/// By name. Folders without a readable athlete.json are passed over.
[[nodiscard]] std::vector<AthleteEntry> athletesOf(const std::filesystem::path& library);
/// Newest first.
[[nodiscard]] std::vector<SessionEntry> sessionsOf(const std::filesystem::path& athleteFolder);

/// A new athlete's folder, named by the code; an Error where the code is taken or no folder's name.
Outcome<std::filesystem::path> addAthlete(const std::filesystem::path& library,
                                          const Athlete& athlete);
/// Today's session of an athlete: made, or the one there is.
Outcome<std::filesystem::path> sessionOfToday(const std::filesystem::path& athleteFolder);

} // namespace latemile::ui
