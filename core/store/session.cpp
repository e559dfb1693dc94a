// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session.hpp"

#include "core/store/session_json.hpp"
#include "core/whole_file.hpp"

#include <algorithm>

namespace latemile {

namespace {

constexpr const char* sessionFile = "session.json";

} // namespace

Outcome<Session> readSession(const std::filesystem::path& folder)
{
    const auto file = folder / sessionFile;
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    return sessionFrom(JsonField(document, file.string()));
}

Outcome<Athlete> readAthlete(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    return athleteFrom(JsonField(document, file.string()));
}

Outcome<void> writeSession(const Session& session, const std::filesystem::path& folder)
{
    return replaceDocument(folder / sessionFile, jsonText(toJson(session)));
}

Outcome<void> writeAthlete(const Athlete& athlete, const std::filesystem::path& file)
{
    return replaceDocument(file, jsonText(toJson(athlete)));
}

const SessionClip* findClip(const Session& session, std::string_view condition)
{
    const auto found =
        std::find_if(session.clips.begin(), session.clips.end(), [&](const SessionClip& clip) {
            return clip.condition == condition && isSideView(clip.scene.view);
        });
    return found == session.clips.end() ? nullptr : &*found;
}

const SessionClip* findClip(const Session& session, std::string_view condition, View view)
{
    const auto found =
        std::find_if(session.clips.begin(), session.clips.end(), [&](const SessionClip& clip) {
            return clip.condition == condition && clip.scene.view == view;
        });
    return found == session.clips.end() ? nullptr : &*found;
}

} // namespace latemile
