// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/readings_file.hpp"

#include "core/csv.hpp"
#include "core/document_schema.hpp"
#include "core/json_file.hpp"
#include "core/json_or_null.hpp"
#include "core/measures/measure.hpp"

#include <array>
#include <utility>

namespace latemile {

namespace {

using nlohmann::json;

constexpr std::array<std::pair<ScaleFrom, std::string_view>, 5> scaleWords{{
    {ScaleFrom::Corners, "corners"},
    {ScaleFrom::Line, "line"},
    {ScaleFrom::Belt, "belt (weaker)"},
    {ScaleFrom::LegLength, "leg length (weaker)"},
    {ScaleFrom::Nothing, "none"},
}};

std::string_view nameOfScale(ScaleFrom from)
{
    for (const auto& [value, word] : scaleWords) {
        if (value == from) {
            return word;
        }
    }
    return "none";
}

json secondsOrNull(const std::optional<Seconds>& value)
{
    return value ? json(value->count()) : json(nullptr);
}

json textOrNull(const std::string& text)
{
    return text.empty() ? json(nullptr) : json(text);
}

std::string_view footWord(const std::optional<Foot>& foot)
{
    return foot ? nameOf(*foot) : "both";
}

std::string_view unitOf(const std::string& measure, const OwnMeasures& own)
{
    const auto* found = own.find(measure);
    return found ? symbolOf(found->unit) : "-";
}

json commonJson(const CommonErrors& common)
{
    return {{"events", common.events},
            {"scale", common.scale},
            {"plumb", common.plumb},
            {"belt", common.belt}};
}

json clipJson(const ClipConditions& clip)
{
    return {{"file", clip.file},
            {"date", textOrNull(clip.date)},
            {"condition", textOrNull(clip.condition)},
            {"minute", orNull(clip.minute)},
            {"incline_percent", orNull(clip.inclinePercent)},
            {"shoes", textOrNull(clip.shoes)},
            {"frames", clip.frames},
            {"frame_interval_s", clip.frameInterval.count()},
            {"capture_fps", clip.captureRate},
            {"scale_from", nameOfScale(clip.scaleFrom)},
            {"scene", toJson(clip.scene)}};
}

json stepJson(const Step& step)
{
    return {{"step", step.number.value},         {"foot", nameOf(step.foot)},
            {"contact_s", step.contact.count()}, {"toe_off_s", secondsOrNull(step.toeOff)},
            {"origin", nameOf(step.origin)},     {"se_s", step.eventError.count()}};
}

json readingJson(const Reading& reading, const OwnMeasures& own)
{
    json row{{"measure", reading.measure},
             {"unit", unitOf(reading.measure, own)},
             {"step", reading.step ? json(reading.step->value) : json(nullptr)},
             {"foot", footWord(reading.foot)},
             {"instant", reading.instant},
             {"time_s", secondsOrNull(reading.time)},
             {"value", orNull(reading.value)},
             {"se", orNull(reading.se)},
             {"reason", reading.reason}};
    if (reading.value) {
        row["confirmed"] = reading.confirmed;
        row["variance"] = {{"marks", reading.shares.marks},
                           {"events", reading.shares.events},
                           {"scale", reading.shares.scale},
                           {"plumb", reading.shares.plumb},
                           {"belt", reading.shares.belt}};
    }
    return row;
}

json checkJson(const Check& check)
{
    return {{"check", check.check},
            {"value", orNull(check.value)},
            {"se", orNull(check.se)},
            {"state", nameOf(check.state)},
            {"sentence", check.sentence}};
}

json summaryJson(const Summary& summary, const OwnMeasures& own)
{
    return {{"measure", summary.measure},
            {"unit", unitOf(summary.measure, own)},
            {"foot", footWord(summary.foot)},
            {"n", summary.n},
            {"mean", summary.mean},
            {"sd", orNull(summary.sd)},
            {"se", summary.se},
            {"degrees_of_freedom", summary.degreesOfFreedom},
            {"common_se", commonJson(summary.common)}};
}

template <class Value, class ToRow>
json rowsOf(const std::vector<Value>& values, ToRow toRow)
{
    auto rows = json::array();
    for (const auto& value : values) {
        rows.push_back(toRow(value));
    }
    return rows;
}

Outcome<std::optional<Foot>> footFrom(const JsonField& row)
{
    ASSIGN_OR_RETURN(const auto word, row.text("foot"));
    const auto foot = footNamed(word);
    if (!foot && word != "both") {
        return row.fault("'" + word + "' is none of left, right and both");
    }
    return foot;
}

Outcome<std::optional<Seconds>> secondsFrom(const JsonField& row, std::string_view key)
{
    ASSIGN_OR_RETURN(const auto value, row.optionalNumber(key));
    return value ? std::optional(Seconds{*value}) : std::nullopt;
}

Outcome<CommonErrors> commonFrom(const JsonField& row)
{
    CommonErrors common;
    ASSIGN_OR_RETURN(common.events, row.number("events", notNegative));
    ASSIGN_OR_RETURN(common.scale, row.number("scale", notNegative));
    ASSIGN_OR_RETURN(common.plumb, row.number("plumb", notNegative));
    ASSIGN_OR_RETURN(const auto belt, row.optionalNumber("belt", notNegative));
    common.belt = belt.value_or(0.0);
    return common;
}

Outcome<std::string> knownMeasure(const JsonField& row, const OwnMeasures& own)
{
    ASSIGN_OR_RETURN(const auto id, row.text("measure"));
    if (!own.find(id)) {
        return row.fault("'" + id + "' is no measure of this version of Latemile");
    }
    return id;
}

Outcome<ClipConditions> clipFrom(const JsonField& document, const std::string& name)
{
    ClipConditions clip;
    ASSIGN_OR_RETURN(clip.file, document.text("file"));
    ASSIGN_OR_RETURN(clip.date, document.optionalText("date"));
    ASSIGN_OR_RETURN(clip.condition, document.optionalText("condition"));
    ASSIGN_OR_RETURN(clip.minute, document.optionalNumber("minute"));
    ASSIGN_OR_RETURN(clip.inclinePercent, document.optionalNumber("incline_percent"));
    ASSIGN_OR_RETURN(clip.shoes, document.optionalText("shoes"));
    ASSIGN_OR_RETURN(const auto frames, document.number("frames", NumberRange{2.0, 1e9}));
    clip.frames = static_cast<std::int64_t>(frames);
    ASSIGN_OR_RETURN(const auto interval, document.number("frame_interval_s", aboveZero));
    clip.frameInterval = Seconds{interval};
    ASSIGN_OR_RETURN(clip.captureRate, document.number("capture_fps", aboveZero));
    ASSIGN_OR_RETURN(const auto scaleWord, document.text("scale_from"));
    for (const auto& [value, word] : scaleWords) {
        clip.scaleFrom = word == scaleWord ? value : clip.scaleFrom;
    }
    ASSIGN_OR_RETURN(const auto scene, document.member("scene"));
    ASSIGN_OR_RETURN(clip.scene, sceneFrom(scene.value(), name + ", /clip/scene"));
    return clip;
}

Outcome<Summary> summaryFrom(const JsonField& row, const OwnMeasures& own)
{
    Summary summary;
    ASSIGN_OR_RETURN(summary.measure, knownMeasure(row, own));
    ASSIGN_OR_RETURN(summary.foot, footFrom(row));
    ASSIGN_OR_RETURN(const auto n, row.member("n"));
    ASSIGN_OR_RETURN(const auto count, n.integer(1, 1000000));
    summary.n = static_cast<int>(count);
    ASSIGN_OR_RETURN(summary.mean, row.number("mean"));
    ASSIGN_OR_RETURN(summary.sd, row.optionalNumber("sd", notNegative));
    ASSIGN_OR_RETURN(summary.se, row.number("se", notNegative));
    ASSIGN_OR_RETURN(const auto freedom, row.member("degrees_of_freedom"));
    ASSIGN_OR_RETURN(const auto degrees, freedom.integer(0, 1000000));
    summary.degreesOfFreedom = static_cast<int>(degrees);
    ASSIGN_OR_RETURN(const auto common, row.member("common_se"));
    ASSIGN_OR_RETURN(summary.common, commonFrom(common));
    return summary;
}

Outcome<Reading> readingFrom(const JsonField& row, const OwnMeasures& own)
{
    Reading reading;
    ASSIGN_OR_RETURN(reading.measure, knownMeasure(row, own));
    ASSIGN_OR_RETURN(const auto step, row.optionalNumber("step", NumberRange{1.0, 1e6}));
    if (step) {
        reading.step = StepNumber{static_cast<int>(*step)};
    }
    ASSIGN_OR_RETURN(reading.foot, footFrom(row));
    ASSIGN_OR_RETURN(reading.instant, row.text("instant"));
    ASSIGN_OR_RETURN(reading.time, secondsFrom(row, "time_s"));
    ASSIGN_OR_RETURN(reading.value, row.optionalNumber("value"));
    ASSIGN_OR_RETURN(reading.se, row.optionalNumber("se", notNegative));
    ASSIGN_OR_RETURN(reading.reason, row.optionalText("reason"));
    ASSIGN_OR_RETURN(const auto confirmed, row.optionalBoolean("confirmed"));
    reading.confirmed = confirmed.value_or(false);
    return reading;
}

Outcome<Check> checkFrom(const JsonField& row)
{
    Check check;
    ASSIGN_OR_RETURN(check.check, row.text("check"));
    ASSIGN_OR_RETURN(check.value, row.optionalNumber("value"));
    ASSIGN_OR_RETURN(check.se, row.optionalNumber("se", notNegative));
    ASSIGN_OR_RETURN(const auto state, row.text("state"));
    for (const auto known : {Check::State::Good, Check::State::Doubt, Check::State::Bad}) {
        check.state = state == nameOf(known) ? known : check.state;
    }
    ASSIGN_OR_RETURN(check.sentence, row.text("sentence"));
    return check;
}

Outcome<Step> stepFrom(const JsonField& row)
{
    Step step;
    ASSIGN_OR_RETURN(const auto number, row.number("step", NumberRange{1.0, 1e6}));
    step.number = {static_cast<int>(number)};
    ASSIGN_OR_RETURN(const auto foot, footFrom(row));
    step.foot = foot.value_or(Foot::Left);
    ASSIGN_OR_RETURN(const auto contact, row.number("contact_s"));
    step.contact = Seconds{contact};
    ASSIGN_OR_RETURN(step.toeOff, secondsFrom(row, "toe_off_s"));
    ASSIGN_OR_RETURN(const auto origin, row.text("origin"));
    step.origin = originNamed(origin).value_or(Origin::Placed);
    ASSIGN_OR_RETURN(const auto se, row.number("se_s", notNegative));
    step.eventError = Seconds{se};
    return step;
}

template <class Value, class FromRow>
Outcome<std::vector<Value>> rowsFrom(const JsonField& document, std::string_view key,
                                     FromRow fromRow)
{
    ASSIGN_OR_RETURN(const auto field, document.member(key));
    ASSIGN_OR_RETURN(const auto items, field.items());
    std::vector<Value> values;
    for (const auto& item : items) {
        ASSIGN_OR_RETURN(auto value, fromRow(item));
        values.push_back(std::move(value));
    }
    return values;
}

} // namespace

json toJson(const Readings& readings)
{
    const auto& own = readings.own;
    json document{
        {"version", 1},
        {"clip", clipJson(readings.clip)},
        {"steps", rowsOf(readings.steps, stepJson)},
        {"readings", rowsOf(readings.readings, [&](const auto& r) { return readingJson(r, own); })},
        {"checks", rowsOf(readings.checks, checkJson)},
        {"summary", rowsOf(readings.summary, [&](const auto& s) { return summaryJson(s, own); })}};
    if (!own.definitions().empty()) {
        document["own_measures"] = toJson(own);
    }
    if (readings.unconfirmedToo) {
        document["unconfirmed"] = true;
    }
    return document;
}

std::string readingsCsv(const Readings& readings)
{
    CsvText csv({"measure", "unit", "step", "foot", "instant", "time_s", "value", "se", "reason",
                 "confirmed"});
    for (const auto& reading : readings.readings) {
        csv.text(reading.measure).text(unitOf(reading.measure, readings.own));
        reading.step ? csv.integer(reading.step->value) : csv.empty();
        csv.text(footWord(reading.foot)).text(reading.instant);
        csv.number(reading.time ? std::optional(reading.time->count()) : std::nullopt);
        csv.number(reading.value).number(reading.se).text(reading.reason);
        csv.text(!reading.value ? "" : reading.confirmed ? "yes" : "no");
        csv.endRow();
    }
    return csv.whole();
}

Outcome<Readings> readReadings(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    const auto name = file.string();
    const JsonField field(document, name);
    RETURN_IF_ERROR(needVersion(field, 1));
    Readings readings;
    ASSIGN_OR_RETURN(const auto clip, field.member("clip"));
    ASSIGN_OR_RETURN(readings.clip, clipFrom(clip, name));
    ASSIGN_OR_RETURN(const auto unconfirmed, field.optionalBoolean("unconfirmed"));
    readings.unconfirmedToo = unconfirmed.value_or(false);
    ASSIGN_OR_RETURN(readings.steps, rowsFrom<Step>(field, "steps", stepFrom));
    ASSIGN_OR_RETURN(const auto own, field.maybe("own_measures"));
    if (own) {
        ASSIGN_OR_RETURN(readings.own, ownMeasuresFrom(*own));
    }
    const auto reading = [&](const JsonField& row) { return readingFrom(row, readings.own); };
    const auto summary = [&](const JsonField& row) { return summaryFrom(row, readings.own); };
    ASSIGN_OR_RETURN(readings.readings, rowsFrom<Reading>(field, "readings", reading));
    ASSIGN_OR_RETURN(readings.checks, rowsFrom<Check>(field, "checks", checkFrom));
    ASSIGN_OR_RETURN(readings.summary, rowsFrom<Summary>(field, "summary", summary));
    RETURN_IF_ERROR(needSchema(field, "readings"));
    return readings;
}

} // namespace latemile
