// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/trust.hpp"

#include "core/decimal_text.hpp"
#include "core/filming/expected_errors.hpp"
#include "core/scene/scale_lines.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>

namespace latemile {

namespace {

using State = Check::State;

/// "± 1.2 deg" with one figure more than it deserves dropped: errors are read at a glance.
std::string errorText(const Measure& measure, double se)
{
    const char* unit = measure.unit == Unit::Degree        ? "°"
                       : measure.unit == Unit::Millisecond ? " ms"
                                                           : " cm";
    return "± " + decimalText(se, measure.unit == Unit::Millisecond ? 0 : 1) + unit;
}

std::vector<ExpectedError> errorsOf(const FilmedClip& clip, const Scene& scene, double rate)
{
    // Without a scale: a picture that shows 2.2 m of height, as one framed for a runner does.
    return expectedErrors(scene, rate, 220.0 / std::max(clip.facts.height, 1));
}

/// The same scene with an upright line where the picture has room for one.
Scene withPlumb(Scene scene, const ClipFacts& facts)
{
    scene.plumb = PlumbLine{.top = {facts.width / 2.0, facts.height * 0.2},
                            .bottom = {facts.width / 2.0, facts.height * 0.8}};
    return scene;
}

Remark timeRemark(const FilmedClip& clip)
{
    const double rate = clip.facts.captureRate;
    const auto error = [](double at) {
        return "± " + decimalText(1000.0 * contactTimeError(at), 0) + " ms";
    };
    const std::string apart = "Frames are " + decimalText(1000.0 / rate, 1) + " ms apart: ";
    if (rate < 59.5) {
        return {"time", State::Bad,
                apart + "too few for any timing; film at 240 frames/s for " + error(240.0) + "."};
    }
    const std::string sentence = apart + "one contact time " + error(rate);
    if (rate > 239.0) {
        return {"time", State::Good, sentence + "."};
    }
    return {"time", rate < 119.5 ? State::Doubt : State::Good,
            sentence + "; film at 240 frames/s for " + error(240.0) + "."};
}

Remark scaleRemark(const FilmedClip& clip, const Plane& plane)
{
    const auto from = clip.readings ? clip.readings->clip.scaleFrom : ScaleFrom::Nothing;
    if (!plane.hasScale() && (from == ScaleFrom::Belt || from == ScaleFrom::LegLength)) {
        return {
            "scale", State::Doubt,
            std::string("The scale comes from ") +
                (from == ScaleFrom::Belt ? "the belt" : "the athlete's leg length, good to 3 %") +
                ": a line along something of known length in the runner's plane would be surer."};
    }
    if (!plane.hasScale()) {
        return {"scale", State::Doubt,
                "No scale: angles and times alone can be read. Draw a line along something of "
                "known length in the runner's plane."};
    }
    const PixelPoint middle{clip.facts.width / 2.0, clip.facts.height / 2.0};
    const double share = 100.0 * plane.relativeScaleError();
    std::string sentence = "A pixel is " + decimalText(plane.cmPerPixel(middle), 2) +
                           " cm, good to " + decimalText(share, 1) + " %";
    if (const auto error =
            errorOf(errorsOf(clip, clip.scene, clip.facts.captureRate), "foot_ahead")) {
        sentence += ": foot ahead of hip ± " + decimalText(*error, 1) + " cm";
    }
    const auto lines = meanScaleOf(clip.scene);
    if (plane.scaleFrom() == ScaleFrom::Line && lines && lines->disagreement > 2.0) {
        return {"scale", State::Doubt,
                sentence + ". The scale lines contradict each other by " +
                    decimalText(lines->disagreement, 1) +
                    " times their errors: look at their ends and lengths."};
    }
    if (share > 1.0) {
        return {"scale", State::Doubt, sentence + ". A longer pole or a second line would help."};
    }
    return {"scale", State::Good, sentence + "."};
}

Remark uprightRemark(const FilmedClip& clip)
{
    const double rate = clip.facts.captureRate;
    const auto lean = [&](const Scene& scene) {
        return errorOf(errorsOf(clip, scene, rate), "trunk_lean");
    };
    const auto now = lean(clip.scene);
    if (clip.scene.plumb) {
        const auto& [top, bottom] = *clip.scene.plumb;
        const double length = std::hypot(top.u - bottom.u, top.v - bottom.v);
        const double degrees = std::sqrt(2.0) * drawnEndError / length * 180.0 / std::numbers::pi;
        return {"upright", degrees > 0.5 ? State::Doubt : State::Good,
                "Upright is known to " + decimalText(degrees, 2) + "°" +
                    (now ? ": trunk lean ± " + decimalText(*now, 1) + "°" : "") +
                    (degrees > 0.5 ? ". Draw a longer plumb line." : ".")};
    }
    const auto then = lean(withPlumb(clip.scene, clip.facts));
    std::string sentence = "No plumb line: a tilted camera tilts every angle";
    if (now && then) {
        sentence += " (trunk lean ± " + decimalText(*now, 1) + "°, with a line ± " +
                    decimalText(*then, 1) + "°)";
    }
    return {"upright", State::Doubt,
            sentence + ". Draw one along something that hangs or stands upright."};
}

Remark speedRemark(const Scene& scene)
{
    if (!scene.beltSpeed) {
        return {"speed", State::Doubt,
                "No belt speed: over ground that is right; on a belt step length and the belt "
                "check need it."};
    }
    return {"speed", State::Good, "The belt runs at " + decimalText(*scene.beltSpeed, 2) + " m/s."};
}

/// Something a coach could do, and the clip as it would then be.
struct Change {
    std::string words;
    Scene scene;
    double rate{};
};

std::vector<Change> changesFor(const FilmedClip& clip, const Plane& plane)
{
    const double rate = clip.facts.captureRate;
    std::vector<Change> changes;
    if (rate < 230.0) {
        changes.push_back({"film at 240 frames/s", clip.scene, 240.0});
    }
    if (!clip.scene.plumb) {
        changes.push_back({"draw a plumb line", withPlumb(clip.scene, clip.facts), rate});
    }
    const auto lines = scaleLinesOf(clip.scene);
    if (!lines.empty() && plane.scaleFrom() == ScaleFrom::Line) {
        auto more = lines;
        more.push_back(lines.front());
        changes.push_back({"draw a second scale line", withScaleLines(clip.scene, more), rate});
    }
    return changes;
}

/// Gain of the measure that gains most, in units of its floor.
struct Gain {
    double share{};
    std::string words;
};

std::string withinSentence(std::string_view name)
{
    std::string words(name);
    words.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(words.front())));
    return words;
}

Gain gainOf(const std::vector<ExpectedError>& now, const std::vector<ExpectedError>& then)
{
    Gain best;
    for (const auto& error : then) {
        const auto before = errorOf(now, error.measure->id);
        const double gain = before ? (*before - error.se) / error.measure->floor : 1.0;
        if (gain > best.share) {
            best = {gain, withinSentence(error.measure->name) + " " +
                              errorText(*error.measure, error.se) +
                              (before ? " instead of " + errorText(*error.measure, *before)
                                      : " instead of no value")};
        }
    }
    return best;
}

} // namespace

std::vector<Remark> trustIn(const FilmedClip& clip)
{
    std::vector<Remark> remarks;
    if (!clip.isOriginal) {
        remarks.push_back({"film", State::Bad,
                           "This file is not the film that came in: its checksum is another. Marks "
                           "may not fit its frames; put the original back in its place."});
    }
    remarks.push_back(timeRemark(clip));
    const auto plane = Plane::from(clip.scene);
    if (!plane) {
        remarks.push_back({"scene", State::Bad, plane.error().sentence});
    } else {
        remarks.push_back(scaleRemark(clip, *plane));
    }
    remarks.push_back(uprightRemark(clip));
    if (isSideView(clip.scene.view)) {
        remarks.push_back(speedRemark(clip.scene));
    }
    if (clip.readings) {
        for (const auto& check : clip.readings->checks) {
            if (check.check != "frame_rate") { // said above, with its numbers
                remarks.push_back({check.check, check.state, check.sentence});
            }
        }
    }
    return remarks;
}

std::optional<std::string> mostHelpful(const FilmedClip& clip)
{
    const auto plane = Plane::from(clip.scene);
    if (!plane || !isSideView(clip.scene.view)) {
        return std::nullopt;
    }
    if (!plane->hasScale()) {
        return "draw a scale line: distances can then be read in centimetres";
    }
    const auto now = errorsOf(clip, clip.scene, clip.facts.captureRate);
    Gain best{0.1, {}};
    for (const auto& change : changesFor(clip, *plane)) {
        auto gain = gainOf(now, errorsOf(clip, change.scene, change.rate));
        if (gain.share > best.share) {
            best = {gain.share, change.words + ": " + gain.words};
        }
    }
    return best.words.empty() ? std::nullopt : std::optional(best.words);
}

} // namespace latemile
