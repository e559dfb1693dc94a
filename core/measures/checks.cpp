// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/checks.hpp"

#include "core/decimal_text.hpp"
#include "core/measures/angles.hpp"
#include "core/measures/belt_advice.hpp"
#include "core/measures/evidence.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace latemile {

namespace {

using State = Check::State;

bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

State stateOf(bool good, bool doubt)
{
    return good ? State::Good : doubt ? State::Doubt : State::Bad;
}

Check notYet(std::string id, std::string sentence)
{
    return {std::move(id), std::nullopt, std::nullopt, State::Doubt, std::move(sentence)};
}

/// The first fault of order, or nothing.
std::optional<std::string> eventFault(const std::vector<Step>& steps)
{
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto& step = steps[i];
        const auto words = "step " + std::to_string(step.number.value);
        if (step.toeOff && *step.toeOff <= step.contact) {
            return "Toe-off of " + words + " is not after its contact.";
        }
        if (i + 1 < steps.size() && steps[i + 1].foot == step.foot) {
            return "After " + words +
                   " comes the same foot again: a contact of the other foot is missing.";
        }
        if (step.toeOff && step.nextContact && *step.toeOff >= *step.nextContact) {
            return "Toe-off of " + words + " is not before the next contact of the other foot.";
        }
        const double ms = step.toeOff ? 1000.0 * (*step.toeOff - step.contact).count() : 200.0;
        if (!within(ms, 120.0, 450.0)) {
            return "Contact of " + words + " lasts " + decimalText(ms, 0) +
                   " ms; running contacts last 120 to 450 ms.";
        }
    }
    return std::nullopt;
}

Check eventsCheck(const PreparedClip& clip)
{
    if (clip.steps.empty()) {
        return notYet("events", "No contact is marked yet.");
    }
    if (const auto fault = eventFault(clip.steps)) {
        return {"events", std::nullopt, std::nullopt, State::Bad, *fault};
    }
    return {"events", static_cast<double>(clip.steps.size()), std::nullopt, State::Good,
            "Contacts and toe-offs alternate and last as long as running contacts do."};
}

Check frameRateCheck(const PreparedClip& clip)
{
    const double rate = 1.0 / clip.frameInterval.count();
    // A nominal 120 or 60 is often 119.88 or 59.94.
    const auto state = stateOf(rate >= 119.0, rate >= 59.0);
    const auto frames = decimalText(rate, 0) + " frames/s: ";
    // Quantisation of a difference of two events: T / sqrt 6 (JCGM 100:2008, 4.3.7).
    const auto error = "one contact time is uncertain by " +
                       decimalText(1000.0 / rate / std::sqrt(6.0), 1) + " ms";
    const std::array endings{std::string("."), std::string("; film at 120 or 240 for better."),
                             std::string("; too slow for timings, film at 120 or more.")};
    return {"frame_rate", rate, std::nullopt, state,
            frames + error + endings[static_cast<std::size_t>(state)]};
}

Check cadenceCheck(const PreparedClip& clip)
{
    Evidence evidence(clip, 0);
    const auto run = evidence.longestRun();
    if (clip.steps.size() < 2 || evidence.missing()) {
        return notYet("cadence",
                      "Two contacts of alternate feet are needed to check the step rate.");
    }
    const double rate = 60.0 * run.steps / (run.to - run.from);
    const auto state = stateOf(within(rate, 130.0, 220.0), within(rate, 110.0, 250.0));
    auto sentence = decimalText(rate, 0) + " steps/min";
    sentence += state == State::Good
                    ? " is an ordinary running step rate."
                    : " is unusual for running: is this clip slow motion, or is an event missing?";
    return {"cadence", rate, std::nullopt, state, sentence};
}

Check facingCheck(const PreparedClip& clip)
{
    double sum = 0.0;
    int n = 0;
    for (const auto frame : clip.tracks.framesOf(BodySide::Near, Landmark::Toe)) {
        const auto* heel = clip.tracks.find({frame, BodySide::Near, Landmark::Heel});
        if (heel) {
            sum +=
                clip.tracks.find({frame, BodySide::Near, Landmark::Toe})->plane.x - heel->plane.x;
            ++n;
        }
    }
    if (n == 0) {
        return notYet("facing",
                      "Heel and toe on one frame are needed to check which way the athlete faces.");
    }
    const double ahead = sum / n;
    const bool good = ahead > 0.0;
    return {"facing", ahead, std::nullopt, good ? State::Good : State::Bad,
            good ? "The toes point the way the athlete runs."
                 : "The toes point against the stated direction of travel: the clip is mirrored, "
                   "or view and "
                   "travel are wrong."};
}

struct Spread {
    double sum{}, squares{};
    int n{};
    void add(double value)
    {
        sum += value;
        squares += value * value;
        ++n;
    }
    /// SD / mean, %.
    [[nodiscard]] double percent() const
    {
        const double mean = sum / n;
        return 100.0 * std::sqrt(std::max(0.0, (squares - n * mean * mean) / (n - 1))) / mean;
    }
};

Spread boneLengths(const PreparedClip& clip, Landmark upper, Landmark lower)
{
    Spread spread;
    for (const auto& step : clip.steps) {
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            const auto frame = frameOf(step, instant, clip.index);
            if (step.foot != clip.nearFoot() || !frame) {
                continue;
            }
            const auto* a = clip.tracks.find({*frame, BodySide::Near, upper});
            const auto* b = clip.tracks.find({*frame, BodySide::Near, lower});
            if (a && b) {
                spread.add(std::hypot(a->plane.x - b->plane.x, a->plane.y - b->plane.y));
            }
        }
    }
    return spread;
}

Check bonesCheck(const PreparedClip& clip)
{
    const auto thigh = boneLengths(clip, Landmark::Hip, Landmark::Knee);
    const auto shank = boneLengths(clip, Landmark::Knee, Landmark::Ankle);
    if (thigh.n < 3 || shank.n < 3) {
        return notYet(
            "bones", "Hip, knee and ankle at three instants are needed to check the bone lengths.");
    }
    if (!(thigh.sum > 0.0) || !(shank.sum > 0.0)) {
        return {"bones", std::nullopt, std::nullopt, State::Bad,
                "Hip, knee and ankle are marked on one spot: mark them anew."};
    }
    const bool thighWorse = thigh.percent() >= shank.percent();
    const double worst = std::max(thigh.percent(), shank.percent());
    const auto state = stateOf(worst < 5.0, worst < 10.0);
    auto sentence = std::string(thighWorse ? "The thigh" : "The shank") + " varies by " +
                    decimalText(worst, 1) + " %";
    sentence += state == State::Good ? " from instant to instant, as a rigid bone should."
                                     : ": a hip, knee or ankle is misplaced or on the other leg.";
    return {"bones", worst, std::nullopt, state, sentence};
}

Check beltCheck(const BeltWitness& belt, const ClipConditions& conditions)
{
    const auto state = stateOf(within(belt.ratio, 0.95, 1.04), within(belt.ratio, 0.90, 1.08));
    const auto advice = beltAdvice(belt, conditions.captureRate, *conditions.scene.beltSpeed);
    const bool isUnsure = state != State::Good && advice.cause == BeltAdvice::Cause::Agrees;
    return {"belt", belt.ratio, belt.se, state,
            isUnsure ? "The foot moves " + decimalText(belt.ratio, 2) + " ± " +
                           decimalText(1.96 * belt.se, 2) +
                           " of the belt speed: too unsure to tell; mark toe and heel on more "
                           "frames of mid-stance."
                     : advice.sentence};
}

Check beltScaleCheck(const BeltScale& scale, bool isTaken)
{
    const auto size = "a pixel is " + decimalText(scale.cmPerPixel, 3) + " cm, good to " +
                      decimalText(100.0 * scale.relativeError, 1) + " %";
    const auto sentence =
        isTaken ? "The belt is the ruler: " + size +
                      "; it can be no witness of capture rate and speed, a scale line could."
                : "No scale line, but by the belt " + size + ": the scale can be taken from it.";
    return {"belt_scale", scale.cmPerPixel, scale.cmPerPixel * scale.relativeError, State::Doubt,
            sentence};
}

Check captureRateCheck(const BeltWitness& belt, const PreparedClip& clip)
{
    for (const double factor : {0.125, 0.25, 0.5, 2.0, 4.0, 8.0}) {
        if (within(belt.ratio / factor, 0.92, 1.08)) {
            const double rate = clip.conditions.captureRate / factor;
            return {"capture_rate", belt.ratio, belt.se, State::Bad,
                    "The foot moves at " + decimalText(belt.ratio, 2) + " of the belt speed" +
                        ": was the clip captured at " + decimalText(rate, 0) +
                        " frames/s? Confirm the capture rate."};
        }
    }
    return {"capture_rate", belt.ratio, belt.se, State::Good,
            "Nothing hints at another capture rate than the one used."};
}

Check beltLineCheck(const BeltWitness& belt, const PreparedClip& clip)
{
    const double grade = atan2Degrees(clip.conditions.inclinePercent.value_or(0.0), 100.0);
    const double off = std::abs(belt.slopeDegrees - grade);
    const auto state = stateOf(off < 1.0, off < 2.0);
    auto sentence = "The belt lies " + decimalText(off, 1) + " degrees off its stated grade";
    sentence += state == State::Good ? "." : ": the plumb line or the incline is wrong.";
    return {"belt_line", off, std::nullopt, state, sentence};
}

Check travelCheck(const BeltWitness& belt)
{
    const bool good = belt.ratio > 0.0;
    return {"travel", belt.ratio, belt.se, good ? State::Good : State::Bad,
            good ? "The standing foot moves backwards, as the belt carries it."
                 : "The standing foot moves forwards: the direction of travel is wrong or the clip "
                   "is mirrored."};
}

/// Over ground the standing foot stands still, unless the camera turns or a belt runs unstated.
Check groundCheck(const GroundWitness& ground, const PreparedClip& clip)
{
    if (ground.moves) {
        return {"ground", ground.foot, ground.footSe, State::Bad,
                "The standing foot moves through the picture and no belt is stated: on a treadmill "
                "state its speed; a camera that was turned along gives times and angles, but no "
                "distances from step to step."};
    }
    const bool isMeasured = clip.plane.hasScale();
    return {"ground", ground.foot, ground.footSe, State::Good,
            "The standing foot stands still" +
                (isMeasured
                     ? ": over ground, at " + decimalText(ground.runner, 2) + " m/s by the picture."
                     : std::string(", as over ground."))};
}

void appendBeltChecks(std::vector<Check>& checks, const PreparedClip& clip)
{
    if (!clip.conditions.scene.beltSpeed) {
        if (clip.ground) {
            checks.push_back(groundCheck(*clip.ground, clip));
        }
        return;
    }
    if (const auto scale = scaleFromBelt(clip)) {
        checks.push_back(beltScaleCheck(*scale, clip.plane.scaleFrom() == ScaleFrom::Belt));
        if (clip.plane.scaleFrom() != ScaleFrom::LegLength) {
            return;
        }
    }
    const auto belt = beltWitness(clip);
    if (!belt) {
        checks.push_back(notYet(
            "belt", "Not checked: mark the toe or the heel on three frames or more between a "
                    "quarter and half of a stance, and draw a scale line."));
        return;
    }
    checks.push_back(travelCheck(*belt));
    checks.push_back(beltCheck(*belt, clip.conditions));
    checks.push_back(beltLineCheck(*belt, clip));
    checks.push_back(captureRateCheck(*belt, clip));
}

} // namespace

std::vector<Check> checksOf(const PreparedClip& clip)
{
    std::vector<Check> checks{eventsCheck(clip), frameRateCheck(clip), cadenceCheck(clip)};
    if (isSideView(clip.conditions.scene.view)) {
        checks.push_back(facingCheck(clip));
        checks.push_back(bonesCheck(clip));
        appendBeltChecks(checks, clip);
    }
    return checks;
}

} // namespace latemile
