// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/json_file.hpp"
#include "core/store/session.hpp"

namespace latemile {

/// session.json and athlete.json, as resources/schema describes them: the values of a document and
/// the document of a value. A fault names the place in the document.
Outcome<Session> sessionFrom(const JsonField& document);
Outcome<Athlete> athleteFrom(const JsonField& document);
Outcome<SessionClip> sessionClipFrom(const JsonField& clip);
[[nodiscard]] nlohmann::json toJson(const Session& session);
[[nodiscard]] nlohmann::json toJson(const Athlete& athlete);
[[nodiscard]] nlohmann::json toJson(const SessionClip& clip);

/// The rows of MARKS.csv and of CONTACTS.csv as objects; possible faults are those of
/// marking_faults, one landmark twice on a frame, and two stances of a foot at once.
Outcome<std::map<MarkKey, Mark>> marksFrom(const JsonField& rows);
Outcome<std::vector<Stance>> stancesFrom(const JsonField& rows);
/// Landmarks the coach looked for and could not see: frame, side and landmark of each.
Outcome<std::set<MarkKey>> unseenFrom(const JsonField& rows);
[[nodiscard]] nlohmann::json toJson(const std::map<MarkKey, Mark>& marks);
[[nodiscard]] nlohmann::json toJson(const std::set<MarkKey>& unseen);
[[nodiscard]] nlohmann::json toJson(const std::vector<Stance>& stances);

} // namespace latemile
