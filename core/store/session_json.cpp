// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_json.hpp"

#include "core/csv.hpp"

#include <algorithm>
#include <array>
#include <chrono>

namespace latemile {

namespace {

constexpr std::int64_t version = 1;
constexpr std::array<std::string_view, 3> conditions{"fresh", "fatigued", "other"};
constexpr std::size_t mostCues = 2;

/// A calendar day that exists, as "2026-08-29".
bool isDate(std::string_view text)
{
    const auto digits = [&](std::size_t from, std::size_t count) {
        const auto part = text.substr(from, count);
        return part.find_first_not_of("0123456789") == std::string_view::npos
                   ? std::stoi(std::string(part))
                   : -1;
    };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-' || digits(0, 4) < 0) {
        return false;
    }
    const std::chrono::year_month_day day{
        std::chrono::year{digits(0, 4)},
        std::chrono::month{static_cast<unsigned>(std::max(digits(5, 2), 0))},
        std::chrono::day{static_cast<unsigned>(std::max(digits(8, 2), 0))}};
    return day.ok();
}

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

Outcome<std::string> dateFrom(const JsonField& document)
{
    ASSIGN_OR_RETURN(const auto field, document.member("date"));
    ASSIGN_OR_RETURN(auto date, field.text());
    if (!isDate(date)) {
        return field.fault("a date reads like 2026-08-29, not '" + date + "'");
    }
    return date;
}

Outcome<std::vector<std::string>> textsFrom(const JsonField& document, std::string_view key)
{
    std::vector<std::string> texts;
    ASSIGN_OR_RETURN(const auto field, document.maybe(key));
    if (!field) {
        return texts;
    }
    ASSIGN_OR_RETURN(const auto items, field->items());
    for (const auto& item : items) {
        ASSIGN_OR_RETURN(auto text, item.text());
        texts.push_back(std::move(text));
    }
    return texts;
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

template <class Value>
void putIfKnown(nlohmann::json& object, const char* key, const std::optional<Value>& value)
{
    if (value) {
        object[key] = *value;
    }
}

void putIfAny(nlohmann::json& object, const char* key, const std::string& text)
{
    if (!text.empty()) {
        object[key] = text;
    }
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
    return read;
}

Outcome<Session> sessionFrom(const JsonField& document)
{
    RETURN_IF_ERROR(needVersion(document, version));
    Session session;
    ASSIGN_OR_RETURN(session.date, dateFrom(document));
    ASSIGN_OR_RETURN(session.note, document.optionalText("note"));
    ASSIGN_OR_RETURN(session.coach, document.optionalText("coach"));
    ASSIGN_OR_RETURN(session.measures, textsFrom(document, "measures"));
    ASSIGN_OR_RETURN(session.cues, textsFrom(document, "cues"));
    if (session.cues.size() > mostCues) {
        ASSIGN_OR_RETURN(const auto cues, document.member("cues"));
        return cues.fault("at most two cues stand on a sheet");
    }
    ASSIGN_OR_RETURN(const auto clipList, document.member("clips"));
    ASSIGN_OR_RETURN(const auto clips, clipList.items());
    for (const auto& clip : clips) {
        ASSIGN_OR_RETURN(auto read, sessionClipFrom(clip));
        session.clips.push_back(std::move(read));
    }
    return session;
}

Outcome<Athlete> athleteFrom(const JsonField& document)
{
    // Like a scene, an athlete may be written by hand or by a script: without a version it is ours.
    ASSIGN_OR_RETURN(const auto stated, document.maybe("version"));
    if (stated) {
        RETURN_IF_ERROR(needVersion(document, version));
    }
    Athlete athlete;
    ASSIGN_OR_RETURN(athlete.code, document.text("code"));
    ASSIGN_OR_RETURN(athlete.name, document.optionalText("name"));
    ASSIGN_OR_RETURN(athlete.heightCm, document.optionalNumber("height_cm", {50.0, 260.0}));
    ASSIGN_OR_RETURN(athlete.legLengthCm, document.optionalNumber("leg_length_cm", {20.0, 160.0}));
    ASSIGN_OR_RETURN(athlete.massKg, document.optionalNumber("mass_kg", {10.0, 300.0}));
    ASSIGN_OR_RETURN(athlete.note, document.optionalText("note"));
    return athlete;
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
    return object;
}

nlohmann::json toJson(const Session& session)
{
    auto clips = nlohmann::json::array();
    for (const auto& clip : session.clips) {
        clips.push_back(toJson(clip));
    }
    nlohmann::json object{{"version", version},
                          {"date", session.date},
                          {"clips", std::move(clips)},
                          {"measures", session.measures},
                          {"cues", session.cues}};
    putIfAny(object, "note", session.note);
    putIfAny(object, "coach", session.coach);
    return object;
}

nlohmann::json toJson(const Athlete& athlete)
{
    nlohmann::json object{{"version", version}, {"code", athlete.code}};
    putIfAny(object, "name", athlete.name);
    putIfKnown(object, "height_cm", athlete.heightCm);
    putIfKnown(object, "leg_length_cm", athlete.legLengthCm);
    putIfKnown(object, "mass_kg", athlete.massKg);
    putIfAny(object, "note", athlete.note);
    return object;
}

} // namespace latemile
