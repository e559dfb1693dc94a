// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_json.hpp"

#include "core/csv.hpp"
#include "core/store/document_fields.hpp"

#include <algorithm>
#include <array>

namespace latemile {

namespace {

constexpr std::array<std::string_view, 3> conditions{"fresh", "fatigued", "other"};
constexpr std::size_t mostCues = 2;
constexpr std::size_t mostInstants = 2;

/// A session may come from somebody else: its clips lie below its own folder and nowhere else.
bool isBelow(const std::filesystem::path& file)
{
    return !file.empty() && file.is_relative() &&
           std::find(file.begin(), file.end(), "..") == file.end();
}

Outcome<std::string> fileFrom(const JsonField& clip)
{
    ASSIGN_OR_RETURN(const auto field, clip.member("file"));
    ASSIGN_OR_RETURN(auto file, field.text());
    if (!isBelow(file)) {
        return field.fault("'" + file + "' does not lie below the session's folder");
    }
    return file;
}

Outcome<std::string> conditionFrom(const JsonField& clip)
{
    ASSIGN_OR_RETURN(const auto field, clip.member("condition"));
    ASSIGN_OR_RETURN(auto condition, field.text());
    if (std::find(conditions.begin(), conditions.end(), condition) == conditions.end()) {
        return field.fault("a condition is fresh, fatigued or other, not '" + condition + "'");
    }
    return condition;
}

std::optional<Instant> instantNamed(std::string_view word)
{
    for (const Instant instant :
         {Instant::Contact, Instant::MidStance, Instant::ToeOff, Instant::MidSwing}) {
        if (word == nameOf(instant)) {
            return instant;
        }
    }
    return std::nullopt;
}

Outcome<std::optional<StepNumber>> stepFrom(const JsonField& stills, std::string_view key)
{
    constexpr std::int64_t mostSteps = 1'000'000;
    ASSIGN_OR_RETURN(const auto field, stills.maybe(key));
    if (!field) {
        return std::nullopt;
    }
    ASSIGN_OR_RETURN(const auto number, field->integer(1, mostSteps));
    return StepNumber{static_cast<int>(number)};
}

Outcome<StillWish> stillsFrom(const JsonField& document)
{
    StillWish wish;
    ASSIGN_OR_RETURN(const auto stills, document.maybe("stills"));
    if (!stills) {
        return wish;
    }
    ASSIGN_OR_RETURN(wish.freshStep, stepFrom(*stills, "fresh_step"));
    ASSIGN_OR_RETURN(wish.fatiguedStep, stepFrom(*stills, "fatigued_step"));
    ASSIGN_OR_RETURN(const auto words, textsFrom(*stills, "instants"));
    for (const std::string& word : words) {
        const auto instant = instantNamed(word);
        if (!instant || wish.instants.size() == mostInstants) {
            return stills->fault(instant ? "at most two instants stand on a sheet"
                                         : "'" + word + "' is no instant");
        }
        wish.instants.push_back(*instant);
    }
    return wish;
}

nlohmann::json toJson(const StillWish& wish)
{
    auto object = nlohmann::json::object();
    if (wish.freshStep) {
        object["fresh_step"] = wish.freshStep->value;
    }
    if (wish.fatiguedStep) {
        object["fatigued_step"] = wish.fatiguedStep->value;
    }
    for (const Instant instant : wish.instants) {
        object["instants"].push_back(nameOf(instant));
    }
    return object;
}

Outcome<std::optional<Screening>> screeningFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.maybe("screening"));
    if (!field) {
        return std::nullopt;
    }
    Screening screening;
    ASSIGN_OR_RETURN(screening.flags, textsFrom(*field, "flags"));
    ASSIGN_OR_RETURN(screening.note, field->optionalText("note"));
    return screening;
}

nlohmann::json toJson(const Screening& screening)
{
    nlohmann::json object{{"flags", screening.flags}};
    putIfAny(object, "note", screening.note);
    return object;
}

Outcome<Marking> markingFrom(const JsonField& clip)
{
    Marking marking;
    ASSIGN_OR_RETURN(const auto marks, clip.maybe("marks"));
    if (marks) {
        ASSIGN_OR_RETURN(marking.marks, marksFrom(*marks));
    }
    ASSIGN_OR_RETURN(const auto contacts, clip.maybe("contacts"));
    if (contacts) {
        ASSIGN_OR_RETURN(marking.stances, stancesFrom(*contacts));
    }
    ASSIGN_OR_RETURN(const auto unseen, clip.maybe("unseen"));
    if (unseen) {
        ASSIGN_OR_RETURN(marking.unseen, unseenFrom(*unseen));
    }
    return marking;
}

} // namespace

Outcome<SessionClip> sessionClipFrom(const JsonField& clip)
{
    SessionClip read;
    ASSIGN_OR_RETURN(read.file, fileFrom(clip));
    ASSIGN_OR_RETURN(read.condition, conditionFrom(clip));
    ASSIGN_OR_RETURN(read.minute, clip.optionalNumber("minute", notNegative));
    ASSIGN_OR_RETURN(read.inclinePercent, clip.optionalNumber("incline_percent", {-100.0, 100.0}));
    ASSIGN_OR_RETURN(read.shoes, clip.optionalText("shoes"));
    ASSIGN_OR_RETURN(read.exertion, clip.optionalNumber("exertion", {0.0, 10.0}));
    ASSIGN_OR_RETURN(read.pain, clip.optionalBoolean("pain"));
    ASSIGN_OR_RETURN(const auto scene, clip.member("scene"));
    ASSIGN_OR_RETURN(read.scene, sceneFrom(scene.value(), scene.place()));
    ASSIGN_OR_RETURN(read.marking, markingFrom(clip));
    read.unknown = unknownIn(clip, {"file", "condition", "minute", "incline_percent", "shoes",
                                    "exertion", "pain", "scene", "marks", "contacts", "unseen"});
    return read;
}

Outcome<Session> sessionFrom(const JsonField& document)
{
    RETURN_IF_ERROR(needVersion(document, storeVersion));
    Session session;
    ASSIGN_OR_RETURN(session.date, dateFrom(document, "date"));
    ASSIGN_OR_RETURN(session.note, document.optionalText("note"));
    ASSIGN_OR_RETURN(session.coach, document.optionalText("coach"));
    ASSIGN_OR_RETURN(session.measures, textsFrom(document, "measures"));
    ASSIGN_OR_RETURN(session.cues, textsFrom(document, "cues"));
    if (session.cues.size() > mostCues) {
        ASSIGN_OR_RETURN(const auto cues, document.member("cues"));
        return cues.fault("at most two cues stand on a sheet");
    }
    ASSIGN_OR_RETURN(const auto afterLooking, document.optionalBoolean("measures_after_looking"));
    session.measuresAfterLooking = afterLooking.value_or(false);
    ASSIGN_OR_RETURN(session.stills, stillsFrom(document));
    ASSIGN_OR_RETURN(session.screening, screeningFrom(document));
    ASSIGN_OR_RETURN(session.nextRefilm, optionalDateFrom(document, "next_refilm"));
    session.unknown =
        unknownIn(document, {"version", "date", "note", "coach", "measures", "cues", "clips",
                             "measures_after_looking", "stills", "screening", "next_refilm"});
    ASSIGN_OR_RETURN(const auto clipList, document.member("clips"));
    ASSIGN_OR_RETURN(const auto clips, clipList.items());
    for (const auto& clip : clips) {
        ASSIGN_OR_RETURN(auto read, sessionClipFrom(clip));
        session.clips.push_back(std::move(read));
    }
    return session;
}

nlohmann::json toJson(const SessionClip& clip)
{
    nlohmann::json object{{"file", clip.file},
                          {"condition", clip.condition},
                          {"scene", toJson(clip.scene)},
                          {"marks", toJson(clip.marking.marks)},
                          {"contacts", toJson(clip.marking.stances)}};
    if (!clip.marking.unseen.empty()) {
        object["unseen"] = toJson(clip.marking.unseen);
    }
    putIfKnown(object, "minute", clip.minute);
    putIfKnown(object, "incline_percent", clip.inclinePercent);
    putIfAny(object, "shoes", clip.shoes);
    putIfKnown(object, "exertion", clip.exertion);
    putIfKnown(object, "pain", clip.pain);
    putUnknown(object, clip.unknown);
    return object;
}

nlohmann::json toJson(const Session& session)
{
    auto clips = nlohmann::json::array();
    for (const auto& clip : session.clips) {
        clips.push_back(toJson(clip));
    }
    nlohmann::json object{{"version", storeVersion},
                          {"date", session.date},
                          {"clips", std::move(clips)},
                          {"measures", session.measures},
                          {"cues", session.cues}};
    putIfAny(object, "note", session.note);
    putIfAny(object, "coach", session.coach);
    if (session.measuresAfterLooking) {
        object["measures_after_looking"] = true;
    }
    if (session.stills != StillWish{}) {
        object["stills"] = toJson(session.stills);
    }
    if (session.screening) {
        object["screening"] = toJson(*session.screening);
    }
    putIfAny(object, "next_refilm", session.nextRefilm);
    putUnknown(object, session.unknown);
    return object;
}

} // namespace latemile
