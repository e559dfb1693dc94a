// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_changes.hpp"

#include "core/document_schema.hpp"
#include "core/store/session_json.hpp"

#include <algorithm>
#include <utility>

namespace latemile {

namespace {

using Marks = std::map<MarkKey, Mark>;

struct MarkChanges {
    Marks put;
    std::set<MarkKey> gone;
};

/// Both maps are in order, so one walk along both finds what differs.
MarkChanges markChanges(const Marks& before, const Marks& now)
{
    MarkChanges changes;
    auto was = before.begin();
    for (const auto& [key, mark] : now) {
        for (; was != before.end() && was->first < key; ++was) {
            changes.gone.insert(was->first);
        }
        const bool known = was != before.end() && was->first == key;
        if (!known || !(was->second == mark)) {
            changes.put.emplace(key, mark);
        }
        was = known ? std::next(was) : was;
    }
    for (; was != before.end(); ++was) {
        changes.gone.insert(was->first);
    }
    return changes;
}

/// Part by part: a copy of the whole would copy thousands of marks to throw them away.
SessionClip withoutMarking(const SessionClip& clip)
{
    return {clip.file, clip.condition, clip.minute, clip.inclinePercent, clip.shoes, clip.exertion,
            clip.pain, clip.scene,     {},          clip.unknown};
}

Session withoutClips(const Session& session)
{
    return {session.date,
            {},
            session.note,
            session.coach,
            session.measures,
            session.cues,
            session.measuresAfterLooking,
            session.stills,
            session.screening,
            session.nextRefilm,
            session.unknown};
}

bool sameFiles(const Session& before, const Session& now)
{
    return std::ranges::equal(before.clips, now.clips, {}, &SessionClip::file, &SessionClip::file);
}

nlohmann::json clipChanges(const SessionClip& before, const SessionClip& now)
{
    auto changes = nlohmann::json::object();
    const auto marks = markChanges(before.marking.marks, now.marking.marks);
    if (!marks.put.empty()) {
        changes["marks"] = toJson(marks.put);
    }
    if (!marks.gone.empty()) {
        changes["no_marks"] = toJson(marks.gone);
    }
    if (before.marking.unseen != now.marking.unseen) {
        changes["unseen"] = toJson(now.marking.unseen);
    }
    if (before.marking.stances != now.marking.stances) {
        changes["contacts"] = toJson(now.marking.stances);
    }
    if (auto rest = withoutMarking(now); !(rest == withoutMarking(before))) {
        changes["rest"] = toJson(rest);
    }
    return changes;
}

Outcome<SessionClip> withClipChanges(SessionClip clip, const JsonField& changes)
{
    ASSIGN_OR_RETURN(const auto rest, changes.maybe("rest"));
    if (rest) {
        auto marking = std::move(clip.marking);
        ASSIGN_OR_RETURN(clip, sessionClipFrom(*rest));
        clip.marking = std::move(marking);
    }
    if (const auto gone = changes.maybe("no_marks"); gone && *gone) {
        ASSIGN_OR_RETURN(const auto keys, unseenFrom(**gone));
        std::erase_if(clip.marking.marks,
                      [&keys](const auto& entry) { return keys.contains(entry.first); });
    }
    if (const auto put = changes.maybe("marks"); put && *put) {
        ASSIGN_OR_RETURN(const auto marks, marksFrom(**put));
        for (const auto& [key, mark] : marks) {
            clip.marking.marks[key] = mark;
        }
    }
    if (const auto unseen = changes.maybe("unseen"); unseen && *unseen) {
        ASSIGN_OR_RETURN(clip.marking.unseen, unseenFrom(**unseen));
    }
    if (const auto contacts = changes.maybe("contacts"); contacts && *contacts) {
        ASSIGN_OR_RETURN(clip.marking.stances, stancesFrom(**contacts));
    }
    return clip;
}

std::string counted(std::size_t count, const char* what)
{
    return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& words)
{
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    }
    return text;
}

} // namespace

nlohmann::json wholeChange(const Session& now)
{
    return {{"whole", toJson(now)}};
}

nlohmann::json changesBetween(const Session& before, const Session& now)
{
    if (!sameFiles(before, now)) {
        return wholeChange(now);
    }
    nlohmann::json changes;
    if (auto about = withoutClips(now); !(about == withoutClips(before))) {
        changes["session"] = toJson(about);
    }
    for (std::size_t i = 0; i < now.clips.size(); ++i) {
        if (auto clip = clipChanges(before.clips[i], now.clips[i]); !clip.empty()) {
            clip["clip"] = i;
            changes["clips"].push_back(std::move(clip));
        }
    }
    return changes;
}

Outcome<Session> withChanges(Session session, const JsonField& changes)
{
    RETURN_IF_ERROR(needSchema(changes, "journal"));
    ASSIGN_OR_RETURN(const auto whole, changes.maybe("whole"));
    if (whole) {
        return sessionFrom(*whole);
    }
    ASSIGN_OR_RETURN(const auto about, changes.maybe("session"));
    if (about) {
        auto clips = std::move(session.clips);
        ASSIGN_OR_RETURN(session, sessionFrom(*about));
        session.clips = std::move(clips);
    }
    ASSIGN_OR_RETURN(const auto list, changes.maybe("clips"));
    if (!list) {
        return session;
    }
    ASSIGN_OR_RETURN(const auto clips, list->items());
    for (const auto& change : clips) {
        ASSIGN_OR_RETURN(const auto place, change.member("clip"));
        ASSIGN_OR_RETURN(const auto at, place.integer(0, 1'000'000));
        if (static_cast<std::size_t>(at) >= session.clips.size()) {
            return place.fault("the session has no clip of this number");
        }
        auto& clip = session.clips[static_cast<std::size_t>(at)];
        ASSIGN_OR_RETURN(clip, withClipChanges(std::move(clip), change));
    }
    return session;
}

std::string wordsForChanges(const Session& before, const Session& now)
{
    std::vector<std::string> words;
    if (!sameFiles(before, now)) {
        words.push_back("the list of clips (" + counted(now.clips.size(), "clip") + ")");
    }
    std::size_t marks = 0;
    bool contacts = false;
    bool scenes = false;
    const SessionClip none;
    for (std::size_t i = 0; i < now.clips.size(); ++i) {
        const auto& was = i < before.clips.size() ? before.clips[i] : none;
        const auto change = markChanges(was.marking.marks, now.clips[i].marking.marks);
        marks += change.put.size() + change.gone.size();
        contacts = contacts || was.marking.stances != now.clips[i].marking.stances ||
                   was.marking.unseen != now.clips[i].marking.unseen;
        scenes = scenes || !(withoutMarking(was) == withoutMarking(now.clips[i]));
    }
    if (marks > 0) {
        words.push_back(counted(marks, "mark"));
    }
    if (contacts) {
        words.emplace_back("contacts");
    }
    if (scenes) {
        words.emplace_back("the scene or details of a clip");
    }
    if (!(withoutClips(before) == withoutClips(now))) {
        words.emplace_back("notes and choices for the sheet");
    }
    return listed(words);
}

} // namespace latemile
