// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/step_readings.hpp"

#include "core/rounding.hpp"

#include <algorithm>
#include <utility>

namespace latemile {

namespace {

/// Below this rate one contact time is uncertain by more than any change worth a word.
constexpr double slowestForTimings = 60.0;

bool isTiming(const Measure& measure)
{
    return measure.feet == Feet::Each || measure.feet == Feet::Pairs;
}

std::string forbidden(const Measure& measure, const PreparedClip& clip, bool takesLengths)
{
    const auto view = clip.conditions.scene.view;
    const bool behind = measure.feet == Feet::Behind;
    if (behind && view != View::Rear && !(measure.fromFrontToo && view == View::Front)) {
        return measure.fromFrontToo ? "needs a clip from behind or from the front"
                                    : "needs a clip from behind";
    }
    if (!behind && !isTiming(measure) && !isSideView(view)) {
        return "needs a clip from the side";
    }
    if (takesLengths && !clip.plane.hasScale()) {
        return "no scale: draw a line of known length, or state the athlete's leg length";
    }
    const double rate = 1.0 / clip.frameInterval.count();
    if (isTiming(measure) && rate < slowestForTimings - 0.5) {
        return "filmed at " + std::to_string(static_cast<int>(rate + 0.5)) +
               " frames/s: too slow for timings; film at 120 or more";
    }
    return {};
}

/// To one side alone: the steps of a clip are late together.
std::string lateWords(double by, const Measure& measure)
{
    return by > 0.0 ? ", about " + fixedText(by, measure.decimals) + " " +
                          std::string(symbolOf(measure.unit)) + " too far on"
                    : std::string{};
}

std::string_view weakRuler(ScaleFrom from)
{
    return from == ScaleFrom::LegLength ? "the athlete's leg length"
           : from == ScaleFrom::Belt    ? "the belt"
                                        : "";
}

std::string caveat(const Propagated& from, const PreparedClip& clip, const Measure& measure)
{
    std::string words;
    if (from.readLate) {
        words = "read on the first frame at or after the event" + lateWords(from.lateBy, measure) +
                ": mark the frame before it too";
    }
    const auto ruler = weakRuler(clip.plane.scaleFrom());
    if (isLength(measure) && !ruler.empty()) {
        words += words.empty() ? "" : "; ";
        words += "scale from " + std::string(ruler) + " (weaker than a scale line)";
    }
    return words;
}

/// The strike's class in words.
std::string classWords(double value)
{
    return value > 0.0 ? "heel strike" : value < 0.0 ? "forefoot strike" : "midfoot strike";
}

Reading readingFrom(const Propagated& from, const PreparedClip& clip, const Measure& measure)
{
    Reading reading;
    reading.measure = measure.id;
    reading.instant = measure.instantWords;
    if (!from.value) {
        reading.reason = from.missing;
        return reading;
    }
    reading.value = from.value;
    reading.reason = caveat(from, clip, measure);
    if (measure.isClass) {
        reading.reason = classWords(*from.value);
    } else {
        reading.se = from.standardError();
    }
    reading.shares = from.shares;
    reading.common = from.common;
    reading.confirmed = isConfirmed(from, clip);
    reading.marksUsed.assign(from.marks.begin(), from.marks.end());
    return reading;
}

std::optional<Seconds> timeOf(const Measure& measure, const Step& step, const PreparedClip& clip)
{
    if (measure.instant == Instant::MidStance) {
        const auto frame = frameOf(step, Instant::MidStance, clip.index);
        return frame ? std::optional(clip.index.time(*frame)) : std::nullopt;
    }
    return measure.instant == Instant::ToeOff ? step.toeOff : step.contact;
}

Reading stepReading(const Measure& measure, const PreparedClip& clip, std::size_t i,
                    const Propagated& from)
{
    const auto& step = clip.steps[i];
    auto reading = readingFrom(from, clip, measure);
    reading.step = step.number;
    if (measure.feet != Feet::Pairs) {
        reading.foot = step.foot;
    }
    reading.time = timeOf(measure, step, clip);
    return reading;
}

Reading clipReading(const Measure& measure, const PreparedClip& clip)
{
    Propagated from;
    // What the whole clip gives comes from times and the belt's speed, not from the picture.
    from.missing = forbidden(measure, clip, false);
    if (from.missing.empty()) {
        from = propagate(clip, measure, measure.clipFormula, 0);
    }
    auto reading = readingFrom(from, clip, measure);
    if (measure.over != Over::Clip) {
        Evidence run(clip, 0);
        const auto found = run.longestRun();
        reading.instant = "run of " + std::to_string(run.missing() ? 0 : found.steps) + " steps";
    }
    reading.time = clip.steps.front().contact;
    return reading;
}

} // namespace

std::string forbiddenBy(const Measure& measure, const PreparedClip& clip)
{
    return forbidden(measure, clip, isLength(measure));
}

bool concerns(const Measure& measure, const Step& step, const PreparedClip& clip)
{
    switch (measure.feet) {
    case Feet::Near:
        return step.foot == clip.nearFoot();
    case Feet::Pairs:
        return step.foot == Foot::Left; // a pair begins with the left step
    case Feet::Each:
    case Feet::Together:
    case Feet::Behind:
        break;
    }
    return true;
}

Propagated propagatedAt(const PreparedClip& clip, const Measure& measure, std::size_t step)
{
    Propagated from;
    from.missing = forbiddenBy(measure, clip);
    if (from.missing.empty() && clip.steps[step].gap) {
        from.missing = "frames are missing from the clip in step " +
                       std::to_string(clip.steps[step].number.value);
    }
    return from.missing.empty() ? propagate(clip, measure, measure.formula, step) : from;
}

bool isConfirmed(const Propagated& from, const PreparedClip& clip)
{
    const auto markPlaced = [&](const MarkKey& key) {
        return clip.tracks.find(key)->mark.origin == Origin::Placed;
    };
    const auto eventPlaced = [&](const EventKey& key) {
        return clip.steps[key.step].origin == Origin::Placed;
    };
    return std::all_of(from.marks.begin(), from.marks.end(), markPlaced) &&
           std::all_of(from.events.begin(), from.events.end(), eventPlaced);
}

std::map<std::size_t, Propagated> propagatedSteps(const PreparedClip& clip, const Measure& measure)
{
    std::map<std::size_t, Propagated> steps;
    // What nobody confirmed has no say in the error of what the coach placed.
    std::map<std::pair<Foot, bool>, std::vector<Propagated*>> alike;
    for (std::size_t i = 0; measure.formula && i < clip.steps.size(); ++i) {
        if (concerns(measure, clip.steps[i], clip)) {
            auto& step = steps.emplace(i, propagatedAt(clip, measure, i)).first->second;
            alike[{clip.steps[i].foot, isConfirmed(step, clip)}].push_back(&step);
        }
    }
    for (const auto& [kind, together] : alike) {
        shareEventSpeeds(together);
    }
    return steps;
}

std::vector<Reading> readingsOfMeasure(const PreparedClip& clip, const Measure& measure)
{
    std::vector<Reading> readings;
    const auto steps = propagatedSteps(clip, measure);
    for (const auto& [i, from] : steps) {
        readings.push_back(stepReading(measure, clip, i, from));
    }
    if (measure.clipFormula && !clip.steps.empty()) {
        readings.push_back(clipReading(measure, clip));
    }
    return readings;
}

std::optional<Reading> firstReading(const PreparedClip& clip, const Measure& measure)
{
    std::optional<Reading> first;
    for (const auto steps = propagatedSteps(clip, measure); const auto& [i, from] : steps) {
        auto reading = stepReading(measure, clip, i, from);
        if (reading.value) {
            return reading;
        }
        if (!first) {
            first = std::move(reading);
        }
    }
    return first;
}

} // namespace latemile
