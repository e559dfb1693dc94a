// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QDate>
#include <QString>

#include <filesystem>
#include <vector>

namespace latemile::ui {

struct AthleteEntry {
    std::filesystem::path folder;
    Athlete athlete;
    QDate nextRefilm; ///< as stated at the last visit, else four weeks on; invalid: never filmed
};

struct SessionEntry {
    std::filesystem::path folder;
    QString date;  ///< ISO 8601
    QString clips; ///< "2 clips"
    QString asked; ///< how the questions before filming stand
    QString toDo;  ///< everything still to do, or "ready for the sheet"; a fault in words
};

/// By name. Folders without a readable athlete.json are passed over.
[[nodiscard]] std::vector<AthleteEntry> athletesOf(const std::filesystem::path& library);
/// Newest first.
[[nodiscard]] std::vector<SessionEntry> sessionsOf(const std::filesystem::path& athleteFolder);

/// The day a session asks for the next filming: the one stated, else four weeks on.
[[nodiscard]] QDate nextRefilmOf(const std::string& date, const std::string& stated);
/// "re-film due since 3 days", "re-film in 12 days, 21 Nov 2026", "not filmed yet".
[[nodiscard]] QString dueText(QDate nextRefilm, QDate today);

/// A new athlete's folder, named by the code; an Error where the code is taken or no folder's name.
Outcome<std::filesystem::path> addAthlete(const std::filesystem::path& library,
                                          const Athlete& athlete);
/// Today's session of an athlete: made, or the one there is. A new one takes over measures, cues
/// and coach of the visit before.
Outcome<std::filesystem::path> sessionOfToday(const std::filesystem::path& athleteFolder);

} // namespace latemile::ui
