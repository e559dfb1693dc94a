// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/repeat_result.hpp"

#include "core/measures/measure.hpp"
#include "core/measures/prepared_clip.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace latemile {

namespace {

constexpr std::size_t fewestForAgreement = 3;

/// The marks both placed.
std::set<MarkKey> inCommon(const Marking& first, const Marking& second)
{
    std::set<MarkKey> common;
    for (const auto& [key, mark] : second.marks) {
        const auto* other = first.find(key);
        if (other && other->origin == Origin::Placed && mark.origin == Origin::Placed) {
            common.insert(key);
        }
    }
    return common;
}

struct Places {
    std::vector<double> firstU, secondU, firstV, secondV;
    double cmPerPixel{};
};

Outcome<std::vector<LandmarkRepeat>> landmarksOf(const MarkedClip& first, const Marking& second,
                                                 const std::set<MarkKey>& common)
{
    ASSIGN_OR_RETURN(const auto prepared, prepare(first));
    std::map<Landmark, Places> places;
    for (const auto& key : common) {
        const auto one = first.marking.find(key)->at;
        const auto two = second.find(key)->at;
        auto& of = places[key.landmark];
        of.firstU.push_back(one.u);
        of.secondU.push_back(two.u);
        of.firstV.push_back(one.v);
        of.secondV.push_back(two.v);
        of.cmPerPixel = prepared.plane.cmPerPixel(one);
    }
    std::vector<LandmarkRepeat> repeats;
    for (const auto& [landmark, of] : places) {
        if (of.firstU.size() < fewestForAgreement) {
            continue;
        }
        ASSIGN_OR_RETURN(const auto across, agreementOf(of.firstU, of.secondU));
        ASSIGN_OR_RETURN(const auto down, agreementOf(of.firstV, of.secondV));
        repeats.push_back({landmark, across, down, of.cmPerPixel});
    }
    return repeats;
}

/// Values of a measure by step, of those readings whose marks are all in common.
using Values = std::map<std::string, std::map<int, double>>;

Values valuesOf(const Readings& readings, const std::set<MarkKey>& common)
{
    Values values;
    for (const auto& reading : readings.readings) {
        const auto isCommon = [&](const MarkKey& key) { return common.contains(key); };
        if (reading.value && reading.step && !reading.marksUsed.empty() &&
            std::ranges::all_of(reading.marksUsed, isCommon)) {
            values[reading.measure][reading.step->value] = *reading.value;
        }
    }
    return values;
}

Outcome<MeasureRepeat> measureRepeat(const std::string& id, std::vector<double> first,
                                     std::vector<double> second)
{
    ASSIGN_OR_RETURN(const auto agreement, agreementOf(first, second));
    Scores scores;
    for (std::size_t i = 0; i < first.size(); ++i) {
        scores.push_back({first[i], second[i]});
    }
    ASSIGN_OR_RETURN(const auto squares, meanSquaresOf(scores));
    return MeasureRepeat{.measure = id,
                         .agreement = agreement,
                         .typicalError = agreement.typicalError,
                         .mdc95 = latemile::mdc95(agreement.typicalError),
                         .icc21 = iccOf(Icc::TwoSingle, squares),
                         .icc31 = iccOf(Icc::ThreeSingle, squares),
                         .first = std::move(first),
                         .second = std::move(second)};
}

/// The clip as `marking` has it, with nothing but the marks in common: so that both readings use
/// the same frames.
MarkedClip reduced(const MarkedClip& clip, const Marking& marking, const std::set<MarkKey>& common)
{
    MarkedClip only = clip;
    only.marking.marks.clear();
    for (const auto& key : common) {
        only.marking.marks.emplace(key, *marking.find(key));
    }
    return only;
}

Outcome<std::vector<MeasureRepeat>> measuresOf(const MarkedClip& first, const Marking& second,
                                               const std::set<MarkKey>& common)
{
    ASSIGN_OR_RETURN(const auto one, readingsOf(reduced(first, first.marking, common)));
    ASSIGN_OR_RETURN(const auto two, readingsOf(reduced(first, second, common)));
    auto firsts = valuesOf(one, common);
    auto seconds = valuesOf(two, common);
    std::vector<MeasureRepeat> repeats;
    for (const auto& measure : measureTable()) {
        if (measure.isClass) {
            continue; // a class has no difference
        }
        std::vector<double> a;
        std::vector<double> b;
        const auto& others = seconds[std::string(measure.id)];
        for (const auto& [step, value] : firsts[std::string(measure.id)]) {
            if (const auto other = others.find(step); other != others.end()) {
                a.push_back(value);
                b.push_back(other->second);
            }
        }
        if (a.size() >= fewestForAgreement) {
            ASSIGN_OR_RETURN(auto repeat,
                             measureRepeat(std::string(measure.id), std::move(a), std::move(b)));
            repeats.push_back(std::move(repeat));
        }
    }
    return repeats;
}

} // namespace

double LandmarkRepeat::clickError() const
{
    return cmPerPixel * std::hypot(across.withinTargetSd, down.withinTargetSd) / std::sqrt(2.0);
}

Outcome<RepeatResult> repeatResult(const MarkedClip& first, const Marking& second)
{
    const auto common = inCommon(first.marking, second);
    if (common.empty()) {
        return fail(Error::Kind::Inconsistent,
                    "The two markings have no mark in common: mark some of the same instants "
                    "again.");
    }
    RepeatResult result;
    result.pairs = static_cast<int>(common.size());
    ASSIGN_OR_RETURN(result.landmarks, landmarksOf(first, second, common));
    ASSIGN_OR_RETURN(result.measures, measuresOf(first, second, common));
    return result;
}

ClickErrors clickErrorsOf(const RepeatResult& result)
{
    ClickErrors errors;
    for (const auto& repeat : result.landmarks) {
        if (repeat.across.n >= fewestPairs) {
            errors.measured[static_cast<std::size_t>(repeat.landmark)] = repeat.clickError();
        }
    }
    return errors;
}

} // namespace latemile
