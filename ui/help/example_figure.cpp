// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/example_figure.hpp"

#include "core/scene/plane.hpp"
#include "core/sheet/sheet_words.hpp"
#include "core/sheet/still_crop.hpp"
#include "core/sheet/still_drawing.hpp"

#include <algorithm>
#include <array>

namespace latemile::ui {
namespace {

struct ExamplePoint {
    Landmark landmark;
    std::array<PixelPoint, 3> at; ///< at contact, mid-stance, toe-off
};

constexpr std::array points{
    ExamplePoint{Landmark::Ear, {{{990, 610}, {993, 620}, {994, 609}}}},
    ExamplePoint{Landmark::Shoulder, {{{975, 655}, {977, 664}, {979, 654}}}},
    ExamplePoint{Landmark::Elbow, {{{930, 710}, {955, 725}, {975, 715}}}},
    ExamplePoint{Landmark::Wrist, {{{980, 740}, {1015, 720}, {1035, 690}}}},
    ExamplePoint{Landmark::Hip, {{{960, 780}, {960, 788}, {960, 778}}}},
    ExamplePoint{Landmark::Knee, {{{1008, 875}, {988, 890}, {919, 876}}}},
    ExamplePoint{Landmark::Ankle, {{{1025, 975}, {932, 975}, {845, 945}}}},
    ExamplePoint{Landmark::Heel, {{{1012, 989}, {920, 990}, {830, 952}}}},
    ExamplePoint{Landmark::Toe, {{{1068, 975}, {977, 990}, {868, 994}}}},
};
constexpr std::array<std::int64_t, 3> frames{50, 113, 176}; // 0.100, 0.226, 0.352 s

FrameIndex exampleIndex()
{
    std::vector<Seconds> times;
    for (int i = 0; i < 450; ++i) {
        times.push_back(Seconds{0.002 * i});
    }
    return FrameIndex(times);
}

Scene exampleScene()
{
    Scene scene;
    scene.view = View::RightSide;
    scene.travel = Travel::Right;
    scene.scale = ScaleLine{{100, 1000}, {600, 1000}, 200.0};
    scene.plumb = PlumbLine{{50, 100}, {50, 1000}};
    scene.groundV = 1000.0;
    scene.beltSpeed = 3.0;
    return scene;
}

std::size_t columnOf(Instant instant)
{
    return instant == Instant::Contact ? 0 : instant == Instant::MidStance ? 1 : 2;
}

std::string valueLabel(const MarkedClip& clip, const Measure& measure)
{
    const auto readings = readingsOf(clip);
    if (!readings) {
        return {};
    }
    const auto found = std::ranges::find_if(readings->readings, [&](const Reading& reading) {
        return reading.measure == measure.id && reading.step == StepNumber{1} && reading.value;
    });
    return found == readings->readings.end()
               ? std::string()
               : readingWords(*found->value, {}, measure, Lengths::Centimetres);
}

} // namespace

MarkedClip exampleClip()
{
    MarkedClip clip;
    clip.conditions.scene = exampleScene();
    clip.conditions.captureRate = 500.0;
    clip.index = exampleIndex();
    clip.athlete.legLengthCm = 88.0;
    clip.marking.stances = {
        {Foot::Right, Seconds{0.1}, Seconds{0.352}, Origin::Placed, std::nullopt},
        {Foot::Left, Seconds{0.456}, Seconds{0.710}, Origin::Placed, std::nullopt},
        {Foot::Right, Seconds{0.814}, std::nullopt, Origin::Placed, std::nullopt}};
    for (const ExamplePoint& point : points) {
        for (std::size_t at = 0; at < frames.size(); ++at) {
            clip.marking.marks[{FrameNumber{frames[at]}, BodySide::Near, point.landmark}] = {
                point.at[at], Origin::Placed, 2.0};
        }
    }
    return clip;
}

Instant exampleInstant(const Measure& measure)
{
    if (measure.instant) {
        return *measure.instant == Instant::MidSwing ? Instant::ToeOff : *measure.instant;
    }
    return measure.instantWords.find("swing") != std::string_view::npos ? Instant::ToeOff
                                                                        : Instant::MidStance;
}

Still exampleStill(const Measure& measure)
{
    const MarkedClip clip = exampleClip();
    Still still;
    still.instant = exampleInstant(measure);
    still.frame = FrameNumber{frames[columnOf(still.instant)]};
    still.landmarks = nearLandmarks(clip.marking, still.frame);
    still.segments = nearSegments(clip.marking, still.frame);
    const auto plane = Plane::from(clip.conditions.scene);
    const PixelPoint hip = clip.marking.find({still.frame, BodySide::Near, Landmark::Hip})->at;
    cropAlike({{&still, hip, 1.0}});
    if (!plane) {
        return still;
    }
    still.plumb = plumbThrough(hip, still.cropFrom.v, still.cropTo.v, *plane);
    if (auto drawn = drawingOf(measure, clip.marking, still.frame, *plane)) {
        drawn->label = valueLabel(clip, measure);
        still.measured.push_back(std::move(*drawn));
    }
    return still;
}

} // namespace latemile::ui
