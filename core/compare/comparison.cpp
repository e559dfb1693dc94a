// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/comparison.hpp"

#include "core/compare/welch.hpp"
#include "core/json_or_null.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/summaries.hpp"
#include "core/rounding.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace latemile {

namespace {

/// A stable mean takes 6.3 +- 0.3 steps: Dingenen 2018, Phys Ther Sport 33:40.
constexpr int fewestSteps = 6;
constexpr double normalQuantile = 1.96;

double square(double value)
{
    return value * value;
}

const Summary* find(const Readings& readings, const Measure& measure, std::optional<Foot> foot)
{
    const auto& all = readings.summary;
    const auto found = std::find_if(all.begin(), all.end(), [&](const Summary& s) {
        return s.measure == measure.id && s.foot == foot;
    });
    return found == all.end() ? nullptr : &*found;
}

/// Standard error of the change from what all steps of a clip share: event judgement always; scale
/// and plumb where the clips have scenes of their own; placement of the marks between filming days.
double commonError(const Measure& measure, const Summary& a, const Summary& b,
                   const Readings& fresh, const Readings& fatigued)
{
    double variance = square(a.common.events) + square(b.common.events);
    if (!isSameScene(fresh.clip, fatigued.clip)) {
        variance += square(a.common.scale) + square(b.common.scale) + square(a.common.plumb) +
                    square(b.common.plumb);
    }
    const bool datesKnown = !fresh.clip.date.empty() && !fatigued.clip.date.empty();
    if (datesKnown && fresh.clip.date != fatigued.clip.date) {
        variance += square(measure.betweenDays);
    }
    return std::sqrt(variance);
}

StepSpread spreadOf(const Summary& summary, const Measure& measure)
{
    return {summary.n, summary.mean, summary.sd.value_or(0.0) * widenedBy(measure, summary.n),
            summary.n - summary.degreesOfFreedom};
}

SideOfRow sideOf(const Summary* summary)
{
    return summary ? SideOfRow{summary->n, summary->mean, summary->sd} : SideOfRow{};
}

std::string unitWords(const Measure& measure)
{
    return measure.unit == Unit::Degree ? "\u00b0" : " " + std::string(symbolOf(measure.unit));
}

std::string asSentence(std::string words)
{
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    return words + ".";
}

std::string changeSentence(const Measure& measure, double change, double halfWidth)
{
    std::string words(change > 0.0 ? measure.more : measure.less);
    const auto amount =
        roundedTogether(std::abs(change), halfWidth, measure.decimals).value + unitWords(measure);
    words.replace(words.find("{}"), 2, amount);
    return asSentence(std::move(words));
}

/// Why a clip has no value of a measure: the reason most of its readings give.
std::string missingReason(const Readings& readings, const Measure& measure, std::string_view which)
{
    for (const auto& reading : readings.readings) {
        if (reading.measure == measure.id && !reading.value && !reading.reason.empty()) {
            return "In the " + std::string(which) + " clip: " + reading.reason + ".";
        }
    }
    if (!measure.formula) {
        return "It is one value a clip, which tells nothing of how far it varies: see the "
               "readings.";
    }
    return "No confirmed step of the " + std::string(which) + " clip has it.";
}

void judge(ComparisonRow& row, const Measure& measure)
{
    const double change = *row.change;
    const double halfWidth = *row.halfWidth;
    const bool beyondError = std::abs(change) > halfWidth;
    if (beyondError && std::abs(change) >= measure.floor) {
        row.verdict = Verdict::ClearChange;
        row.sentence = changeSentence(measure, change, halfWidth);
        return;
    }
    row.verdict = Verdict::WithinError;
    row.sentence = "No change beyond error in " + std::string(measure.same) + ".";
    if (beyondError) {
        row.reason = "Smaller than the smallest change worth a word, " +
                     fixedText(measure.floor, measure.decimals) + unitWords(measure) + ".";
    }
}

ComparisonRow rowOf(const Measure& measure, std::optional<Foot> foot, const Readings& fresh,
                    const Readings& fatigued, const ClipNames& names)
{
    const auto* a = find(fresh, measure, foot);
    const auto* b = find(fatigued, measure, foot);
    ComparisonRow row;
    row.measure = measure.id;
    row.foot = foot;
    row.fresh = sideOf(a);
    row.fatigued = sideOf(b);
    if (a && b) {
        row.change = b->mean - a->mean;
    }
    if (a && b && a->degreesOfFreedom > 0 && b->degreesOfFreedom > 0) {
        const auto welch = welchDifference(spreadOf(*a, measure), spreadOf(*b, measure));
        const double common = commonError(measure, *a, *b, fresh, fatigued);
        row.halfWidth = std::hypot(welch.halfWidth(), normalQuantile * common);
    }
    if (auto why = whyNotComparable(measure, fresh, fatigued, names)) {
        row.verdict = Verdict::NotComparable;
        row.reason = *why;
        row.sentence = "Not comparable: " + std::string(measure.same) + ".";
        if (a && b && onlySpeedForbids(measure, fresh, fatigued, names)) {
            row.speedEstimate = estimateAcrossSpeeds(measure, a->mean, *fresh.clip.scene.beltSpeed,
                                                     b->mean, *fatigued.clip.scene.beltSpeed);
        }
        return row;
    }
    if (!a || !b || std::min(a->n, b->n) < fewestSteps || !row.halfWidth) {
        row.verdict = Verdict::TooFewSteps;
        row.reason = !a   ? missingReason(fresh, measure, names.first)
                     : !b ? missingReason(fatigued, measure, names.second)
                          : "Six steps of each clip are needed, seven or more are better.";
        row.sentence = "Too few steps to tell a change in " + std::string(measure.same) + ".";
        return row;
    }
    judge(row, measure);
    // Of a run's end against its beginning; of one foot it would say what both say.
    const bool isToldOfBoth =
        foot && find(fresh, measure, std::nullopt) && find(fatigued, measure, std::nullopt);
    if (names.first == ClipNames{}.first && !isToldOfBoth) {
        row.usual = againstTheUsual(measure, a->mean, *row.change);
    }
    return row;
}

std::vector<std::optional<Foot>> feetOf(const Measure& measure, const Readings& fresh,
                                        const Readings& fatigued)
{
    std::vector<std::optional<Foot>> feet;
    for (const std::optional<Foot> foot :
         {std::optional<Foot>(), std::optional(Foot::Left), std::optional(Foot::Right)}) {
        if (find(fresh, measure, foot) || find(fatigued, measure, foot)) {
            feet.push_back(foot);
        }
    }
    if (feet.empty()) {
        feet.push_back(std::nullopt);
    }
    return feet;
}

nlohmann::json sideJson(const SideOfRow& side)
{
    nlohmann::json row{{"n", side.n}, {"mean", nullptr}, {"sd", nullptr}};
    if (side.mean) {
        row["mean"] = *side.mean;
    }
    if (side.sd) {
        row["sd"] = *side.sd;
    }
    return row;
}

nlohmann::json rowJson(const ComparisonRow& row, const OwnMeasures& own)
{
    nlohmann::json json{{"measure", row.measure},
                        {"unit", symbolOf(own.find(row.measure)->unit)},
                        {"foot", row.foot ? nameOf(*row.foot) : "both"},
                        {"fresh", sideJson(row.fresh)},
                        {"fatigued", sideJson(row.fatigued)},
                        {"change", orNull(row.change)},
                        {"half_width", orNull(row.halfWidth)},
                        {"verdict", nameOf(row.verdict)},
                        {"reason", row.reason},
                        {"sentence", row.sentence}};
    if (row.speedEstimate) {
        json["speed_estimate"] = {{"predicted", row.speedEstimate->predicted},
                                  {"difference", row.speedEstimate->difference},
                                  {"source", row.speedEstimate->source},
                                  {"sentence", row.speedEstimate->sentence}};
    }
    if (!row.usual.empty()) {
        json["usual"] = row.usual;
    }
    return json;
}

} // namespace

std::string_view nameOf(Verdict verdict)
{
    switch (verdict) {
    case Verdict::ClearChange:
        return "clear change";
    case Verdict::WithinError:
        return "within error";
    case Verdict::TooFewSteps:
        return "too few steps";
    case Verdict::NotComparable:
        return "not comparable";
    }
    return {};
}

Comparison compare(const Readings& fresh, const Readings& fatigued, const ClipNames& names)
{
    Comparison comparison;
    if (fresh.own == fatigued.own) {
        comparison.own = fresh.own;
    }
    for (const auto* known : comparison.own.all()) {
        const auto& measure = *known;
        if (measure.isClass) {
            continue;
        }
        for (const auto& foot : feetOf(measure, fresh, fatigued)) {
            comparison.rows.push_back(rowOf(measure, foot, fresh, fatigued, names));
        }
    }
    return comparison;
}

nlohmann::json toJson(const Comparison& comparison)
{
    auto rows = nlohmann::json::array();
    for (const auto& row : comparison.rows) {
        rows.push_back(rowJson(row, comparison.own));
    }
    return {{"version", 1}, {"rows", rows}};
}

} // namespace latemile
