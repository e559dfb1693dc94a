// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/expected_errors.hpp"

#include "core/filming/model_figure.hpp"
#include "core/measures/prepared_clip.hpp"
#include "core/measures/propagation.hpp"

#include <array>
#include <cmath>

namespace latemile {

namespace {

constexpr std::array mainMeasures{"head_forward", "trunk_lean",        "hips_behind", "foot_ahead",
                                  "shank_angle",  "knee_flex_contact", "contact_time"};
constexpr double slowestForTimings = 59.5; ///< frames/s, as readings refuse them
constexpr double lastEvent = 0.9;          ///< s

FrameIndex indexAt(double rate)
{
    std::vector<Seconds> times;
    for (int frame = 0; frame / rate < lastEvent + 2.0 / rate; ++frame) {
        times.emplace_back(frame / rate);
    }
    return FrameIndex(std::move(times));
}

/// Where in the picture the model stands: at the lines that were drawn, which are at the runner.
PixelPoint footOf(const Scene& scene)
{
    if (scene.plane) {
        return scene.plane->image[0];
    }
    if (scene.scale) {
        return scene.scale->a.v > scene.scale->b.v ? scene.scale->a : scene.scale->b;
    }
    return scene.plumb ? scene.plumb->bottom : PixelPoint{640.0, 600.0};
}

std::vector<Stance> stancesFor(Foot nearFoot)
{
    const auto stance = [](Foot foot, double contact, double toeOff) {
        return Stance{.foot = foot,
                      .contact = Seconds{contact},
                      .toeOff = Seconds{toeOff},
                      .origin = Origin::Placed,
                      .se = std::nullopt};
    };
    return {stance(nearFoot, 0.1, 0.352), stance(otherFoot(nearFoot), 0.456, 0.710),
            stance(nearFoot, 0.814, 0.9)};
}

/// One step of the model, marked on the frames a coach is asked for.
MarkedClip modelClip(const Scene& scene, const Plane& plane, double rate, double pixelsAUnit)
{
    MarkedClip clip;
    clip.conditions.scene = scene;
    clip.conditions.captureRate = rate;
    clip.index = indexAt(rate);
    clip.athlete.legLengthCm = std::nullopt;
    clip.marking.stances = stancesFor(scene.view == View::RightSide ? Foot::Right : Foot::Left);
    const auto steps = stepsOf(clip.marking.stances, clip.index);
    const PlanePoint foot = plane.toPlane(footOf(scene));
    for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        const auto frame = frameOf(steps.front(), instant, clip.index);
        if (!frame) {
            continue;
        }
        for (const auto& point : modelFigure()) {
            const PlanePoint at{foot.x + pixelsAUnit * point.at(instant).x,
                                foot.y + pixelsAUnit * point.at(instant).y};
            clip.marking.marks[{*frame, BodySide::Near, point.landmark}] = {
                plane.toPixel(at), Origin::Placed, std::nullopt};
        }
    }
    return clip;
}

} // namespace

std::vector<ExpectedError> expectedErrors(const Scene& scene, double captureRate,
                                          double roughCmPerPixel)
{
    std::vector<ExpectedError> errors;
    const auto plane = Plane::from(scene);
    if (!plane || !isSideView(scene.view)) {
        return errors;
    }
    // Without a scale the plane counts in pixels: the figure is drawn as large as it would be.
    const double unit = plane->hasScale() ? 1.0 : 1.0 / roughCmPerPixel;
    const auto clip = prepare(modelClip(scene, *plane, captureRate, unit));
    if (!clip) {
        return errors;
    }
    for (const auto* id : mainMeasures) {
        const Measure* measure = findMeasure(id);
        const bool length = measure->unit == Unit::Centimetre;
        const bool timing = measure->unit == Unit::Millisecond;
        if ((length && !plane->hasScale()) || (timing && captureRate < slowestForTimings)) {
            continue;
        }
        const auto read = propagate(*clip, *measure, measure->formula, 0);
        if (read.value) {
            errors.push_back({measure, read.standardError()});
        }
    }
    return errors;
}

std::optional<double> errorOf(const std::vector<ExpectedError>& errors, std::string_view measure)
{
    for (const auto& error : errors) {
        if (error.measure->id == measure) {
            return error.se;
        }
    }
    return std::nullopt;
}

double contactTimeError(double captureRate)
{
    return std::sqrt(2.0) * std::hypot(1.0 / std::sqrt(12.0), 0.5) / captureRate;
}

} // namespace latemile
