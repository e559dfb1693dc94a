// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"

#include <array>
#include <functional>
#include <vector>

namespace latemile::testing {

/// The worked example of DEVELOPERS.md, "Worked example": travel right, plumb vertical, 0.4 cm a
/// pixel, pixels of contact, mid-stance and toe-off, computed by hand and again by NumPy
/// (tests/outside/data/angles.json).
struct ExamplePoint {
    Landmark landmark;
    PixelPoint contact;
    PixelPoint midStance;
    PixelPoint toeOff;
};
inline const std::vector<ExamplePoint> examplePoints{
    {Landmark::Ear, {990, 610}, {993, 620}, {994, 609}},
    {Landmark::Shoulder, {975, 655}, {977, 664}, {979, 654}},
    {Landmark::Elbow, {930, 710}, {955, 725}, {975, 715}},
    {Landmark::Wrist, {980, 740}, {1015, 720}, {1035, 690}},
    {Landmark::Hip, {960, 780}, {960, 788}, {960, 778}},
    {Landmark::Knee, {1008, 875}, {988, 890}, {919, 876}},
    {Landmark::Ankle, {1025, 975}, {932, 975}, {845, 945}},
    {Landmark::Heel, {1012, 989}, {920, 990}, {830, 952}},
    {Landmark::Toe, {1068, 975}, {977, 990}, {868, 994}},
};

/// Frames 2 ms apart, so that all event times of the example fall on frames.
inline FrameIndex exampleIndex(double interval = 0.002)
{
    std::vector<Seconds> times;
    for (int i = 0; i * interval < 0.9; ++i) {
        times.push_back(Seconds{i * interval});
    }
    return FrameIndex(times);
}

inline Scene exampleScene()
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

/// Every mark of the example at the instants of a right step, each with a standard error of 2 px.
/// The step begins at 0.1 s so that a frame stands before its contact; contact 252 ms as in the
/// example.
inline MarkedClip exampleClip()
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
    const std::array<std::int64_t, 3> frames{50, 113, 176}; // 0.100, 0.226, 0.352 s
    for (const auto& p : examplePoints) {
        const std::array places{p.contact, p.midStance, p.toeOff};
        for (std::size_t i = 0; i < 3; ++i) {
            clip.marking.marks[{{frames[i]}, BodySide::Near, p.landmark}] = {places[i],
                                                                             Origin::Placed, 2.0};
        }
    }
    return clip;
}

inline const Reading* findReading(const Readings& readings, std::string_view measure, int step = 1)
{
    for (const auto& reading : readings.readings) {
        if (reading.measure == measure && reading.step == StepNumber{step}) {
            return &reading;
        }
    }
    return nullptr;
}

} // namespace latemile::testing
