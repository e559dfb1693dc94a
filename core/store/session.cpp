// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session.hpp"

#include "core/document_schema.hpp"
#include "core/store/session_json.hpp"
#include "core/store/writers_turn.hpp"
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
    const JsonField root(document, file.string());
    ASSIGN_OR_RETURN(auto session, sessionFrom(root));
    RETURN_IF_ERROR(needSchema(root, "session"));
    return session;
}

Outcome<Athlete> readAthlete(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    const JsonField root(document, file.string());
    ASSIGN_OR_RETURN(auto athlete, athleteFrom(root));
    RETURN_IF_ERROR(needSchema(root, "athlete"));
    return athlete;
}

Outcome<void> writeSession(const Session& session, const std::filesystem::path& folder)
{
    return replaceDocument(folder / sessionFile, jsonText(toJson(session)));
}

Outcome<void> writeAthlete(const Athlete& athlete, const std::filesystem::path& file)
{
    return replaceDocument(file, jsonText(toJson(athlete)));
}

Outcome<void> keepAthlete(const Athlete& athlete, const Athlete& before,
                          const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto turn, WritersTurn::take(folderOf(file)));
    const auto there = readAthlete(file);
    // One that is gone or damaged is nobody's edit: the whole one takes its place.
    if (!there || *there == before || *there == athlete) {
        return writeAthlete(athlete, file);
    }
    const auto aside = freeNameBeside(file, "other");
    RETURN_IF_ERROR(writeAthlete(athlete, aside));
    return fail(
        Error::Kind::Inconsistent,
        "The athlete's record was changed in another window meanwhile: that version stands, "
        "and yours is kept beside it as " +
            aside.filename().string() + ".");
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
