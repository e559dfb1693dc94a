// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/prepared_clip.hpp"

#include "core/clip/median_interval.hpp"
#include "core/measures/belt_advice.hpp"
#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

double length(PixelPoint a, PixelPoint b)
{
    return std::hypot(b.u - a.u, b.v - a.v);
}

/// Pixels of thigh and shank together, one value a frame that has hip, knee and ankle.
std::vector<double> legsInPixels(const Marking& marking)
{
    std::vector<double> legs;
    for (const auto& [key, hip] : marking.marks) {
        if (key.side != BodySide::Near || key.landmark != Landmark::Hip) {
            continue;
        }
        const auto* knee = marking.find({key.frame, BodySide::Near, Landmark::Knee});
        const auto* ankle = marking.find({key.frame, BodySide::Near, Landmark::Ankle});
        if (knee && ankle) {
            legs.push_back(length(hip.at, knee->at) + length(knee->at, ankle->at));
        }
    }
    return legs;
}

/// Thigh (.245 of stature) and shank (.246) as a share of the trochanter's height (.530): Drillis &
/// Contini 1966 in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1.
constexpr double thighAndShankOfLeg = (0.245 + 0.246) / 0.530;
/// Spread of such proportions between people (a choice of this project).
constexpr double proportionError = 0.03;

/// Without a scale line the athlete's own leg is the ruler; a weaker one.
Plane scaledByLeg(const Plane& plane, const MarkedClip& clip)
{
    const auto legs = legsInPixels(clip.marking);
    if (plane.hasScale() || legs.empty() || !clip.athlete.legLengthCm) {
        return plane;
    }
    return plane.withScale(*clip.athlete.legLengthCm * thighAndShankOfLeg / upperMedianOf(legs),
                           proportionError, ScaleFrom::LegLength);
}

/// Centimetres a pixel good enough to turn the default click errors into pixels where nothing gives
/// a scale: a thigh and shank of 80 cm.
double roughScale(const MarkedClip& clip)
{
    const auto legs = legsInPixels(clip.marking);
    return legs.empty() ? 0.4 : 80.0 / upperMedianOf(legs);
}

std::vector<std::array<std::optional<FrameNumber>, instantCount>>
framesOf(const std::vector<Step>& steps, const FrameIndex& index)
{
    std::vector<std::array<std::optional<FrameNumber>, instantCount>> frames;
    for (const auto& step : steps) {
        frames.push_back(
            {frameOf(step, Instant::Contact, index), frameOf(step, Instant::MidStance, index),
             frameOf(step, Instant::ToeOff, index), frameOf(step, Instant::MidSwing, index)});
    }
    return frames;
}

std::optional<TrunkLength> trunkOf(const PreparedClip& clip)
{
    TrunkLength trunk;
    double variance = 0.0;
    std::vector<int> shoulderPaths;
    std::vector<int> hipPaths;
    for (const auto frame : clip.tracks.framesOf(BodySide::Near, Landmark::Shoulder)) {
        const auto* hip = clip.tracks.find({frame, BodySide::Near, Landmark::Hip});
        if (!hip) {
            continue;
        }
        const auto* shoulder = clip.tracks.find({frame, BodySide::Near, Landmark::Shoulder});
        trunk.cm += std::hypot(shoulder->plane.x - hip->plane.x, shoulder->plane.y - hip->plane.y);
        const double k = clip.plane.cmPerPixel(hip->mark.at);
        variance += k * k * (shoulder->sePx * shoulder->sePx + hip->sePx * hip->sePx);
        shoulderPaths.push_back(shoulder->path);
        hipPaths.push_back(hip->path);
        ++trunk.frames;
    }
    if (trunk.frames == 0) {
        return std::nullopt;
    }
    trunk.cm /= trunk.frames;
    const double shared = std::max(varianceOfMean(shoulderPaths), varianceOfMean(hipPaths));
    trunk.se = std::sqrt(variance / trunk.frames * shared);
    return trunk;
}

} // namespace

std::optional<Foot> PreparedClip::nearFoot() const
{
    switch (conditions.scene.view) {
    case View::LeftSide:
        return Foot::Left;
    case View::RightSide:
        return Foot::Right;
    case View::Rear:
    case View::Front:
        break;
    }
    return std::nullopt;
}

namespace {

/// Neither a lens nor a slant makes pixels of one place larger than those of another.
std::optional<double> evenCmPerPixel(const Plane& plane, const Scene& scene)
{
    const bool isEven = !scene.lens && !scene.plane;
    return isEven ? std::optional(plane.cmPerPixel({0.0, 0.0})) : std::nullopt;
}

PreparedClip preparedOn(const Plane& plane, const MarkedClip& clip, Seconds interval)
{
    auto conditions = clip.conditions;
    conditions.frames = clip.index.size();
    conditions.frameInterval = interval;
    conditions.scaleFrom = plane.scaleFrom();
    PreparedClip prepared{.conditions = std::move(conditions),
                          .index = clip.index,
                          .frameInterval = interval,
                          .plane = plane,
                          .tracks = MarkTracks(clip.marking, plane, clip.index.size(), clip.clicks,
                                               evenCmPerPixel(plane, clip.conditions.scene)),
                          .steps = stepsOf(clip.marking.stances, clip.index),
                          .instantFrames = {},
                          .athlete = clip.athlete,
                          .clicks = clip.clicks,
                          .flatFoot = std::nullopt,
                          .trunk = std::nullopt,
                          .ground = std::nullopt};
    prepared.instantFrames = framesOf(prepared.steps, prepared.index);
    prepared.flatFoot = flatFootOf(prepared);
    prepared.trunk = trunkOf(prepared);
    if (isSideView(clip.conditions.scene.view) && !clip.conditions.scene.beltSpeed) {
        prepared.ground = groundWitness(prepared);
    }
    return prepared;
}

/// The scale lines or corners drawn, else the belt where the coach takes it for the ruler, else the
/// leg; else one good enough for angles, which do not mind, and marked as none.
Plane scaledPlane(const Plane& drawn, const MarkedClip& clip, Seconds interval)
{
    if (drawn.hasScale()) {
        return drawn;
    }
    const auto unscaled = drawn.withScale(roughScale(clip), 0.0, ScaleFrom::Nothing);
    if (clip.conditions.scene.scaleByBelt) {
        if (const auto belt = scaleFromBelt(preparedOn(unscaled, clip, interval))) {
            return drawn.withScale(belt->cmPerPixel, belt->relativeError, ScaleFrom::Belt);
        }
    }
    const auto byLeg = scaledByLeg(drawn, clip);
    return byLeg.hasScale() ? byLeg : unscaled;
}

} // namespace

Outcome<PreparedClip> prepare(const MarkedClip& clip)
{
    if (clip.index.size() < 2) {
        return fail(Error::Kind::Inconsistent,
                    "The clip has fewer than two frames: nothing can be timed.");
    }
    ASSIGN_OR_RETURN(const auto drawn, Plane::from(clip.conditions.scene));
    const auto interval = medianInterval(clip.index);
    if (!(interval.count() > 0.0) || !std::isfinite(interval.count())) {
        return fail(Error::Kind::Inconsistent,
                    "Most frames of the clip have the same time: nothing can be timed.");
    }
    return preparedOn(scaledPlane(drawn, clip, interval), clip, interval);
}

} // namespace latemile
