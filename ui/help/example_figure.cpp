// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/example_figure.hpp"

#include "core/filming/model_figure.hpp"
#include "core/scene/plane.hpp"
#include "core/sheet/sheet_words.hpp"
#include "core/sheet/still_crop.hpp"
#include "core/sheet/still_drawing.hpp"

#include <algorithm>
#include <array>

namespace latemile::ui {
namespace {

constexpr std::array instants{Instant::Contact, Instant::MidStance, Instant::ToeOff};
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

/// From the figure's centimetres to a picture of 0.4 cm a pixel, the ground at v = 1000.
PixelPoint inPicture(PlanePoint at)
{
    return {960.0 + at.x / 0.4, 1000.0 - at.y / 0.4};
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
    for (const FigurePoint& point : modelFigure()) {
        for (const Instant instant : instants) {
            const FrameNumber frame{frames[columnOf(instant)]};
            clip.marking.marks[{frame, BodySide::Near, point.landmark}] = {
                inPicture(point.at(instant)), Origin::Placed, 2.0};
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
