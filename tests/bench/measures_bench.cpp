// SPDX-License-Identifier: GPL-3.0-or-later
// bench_measures: how long all readings of a hundred steps take, with their errors, beside the bare
// values without any.
#include "core/measures/evidence.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>

namespace {

using namespace latemile;

constexpr int stepCount = 101;
constexpr double stepSeconds = 0.357;
constexpr double contactSeconds = 0.253;

PixelPoint placeOf(Landmark landmark, double time)
{
    const double phase = 2.0 * 3.14159265358979 * time / (2.0 * stepSeconds);
    const auto n = static_cast<double>(landmark);
    return {960.0 + 40.0 * std::sin(phase + n),
            300.0 + 80.0 * n + 15.0 * std::cos(2.0 * phase + n)};
}

/// A hundred steps at 120 frames/s; `every`: all landmarks on every frame, else on the instants
/// alone.
MarkedClip clipOf(bool every)
{
    MarkedClip clip;
    clip.conditions.scene.view = View::LeftSide;
    clip.conditions.scene.travel = Travel::Left;
    clip.conditions.scene.beltSpeed = 2.7;
    clip.conditions.scene.scale = ScaleLine{{0, 900}, {500, 900}, 200.0};
    clip.conditions.scene.plumb = PlumbLine{{100, 0}, {100, 900}};
    clip.conditions.scene.groundV = 990.0;
    clip.athlete.legLengthCm = 88.0;
    clip.athlete.massKg = 58.0;
    std::vector<Seconds> times;
    for (int i = 0; i < static_cast<int>((stepCount + 2) * stepSeconds * 120.0); ++i) {
        times.push_back(Seconds{i / 120.0});
    }
    clip.index = FrameIndex(times);
    for (int n = 0; n < stepCount; ++n) {
        const Seconds contact{0.1 + n * stepSeconds};
        clip.marking.stances.push_back({n % 2 == 0 ? Foot::Left : Foot::Right, contact,
                                        contact + Seconds{contactSeconds}, Origin::Placed,
                                        std::nullopt});
    }
    const auto mark = [&](FrameNumber frame) {
        for (const auto landmark : sideViewLandmarks) {
            const Mark placed{placeOf(landmark, clip.index.time(frame).count()), Origin::Placed,
                              1.5};
            clip.marking.marks[{frame, BodySide::Near, landmark}] = placed;
            clip.marking.marks[{frame, BodySide::Far, landmark}] = placed;
        }
    };
    if (every) {
        for (std::int64_t i = 0; i < clip.index.size(); ++i) {
            mark({i});
        }
        return clip;
    }
    for (const auto& step : stepsOf(clip.marking.stances, clip.index)) {
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            mark(*frameOf(step, instant, clip.index));
        }
    }
    return clip;
}

template <class Work>
double medianMs(Work work)
{
    std::vector<double> times;
    for (int i = 0; i < 9; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
                .count());
    }
    std::sort(times.begin(), times.end());
    return times[times.size() / 2];
}

void report(const char* name, const MarkedClip& clip)
{
    std::size_t values = 0;
    const double withErrors = medianMs([&] {
        const auto readings = readingsOf(clip).value();
        values = static_cast<std::size_t>(
            std::count_if(readings.readings.begin(), readings.readings.end(),
                          [](const Reading& r) { return r.value.has_value(); }));
    });
    const auto prepared = prepare(clip).value();
    const double bare = medianMs([&] {
        double sum = 0.0;
        for (const auto& measure : measureTable()) {
            for (std::size_t i = 0; measure.formula && i < prepared.steps.size(); ++i) {
                Evidence evidence(prepared, i);
                sum += measure.formula(evidence);
            }
        }
        return sum;
    });
    std::printf("%-44s %7.2f ms for %zu values; bare values %6.2f ms; ratio %.1f\n", name,
                withErrors, values, bare, withErrors / bare);
}

} // namespace

int main()
{
    report("100 steps, instants marked, with errors", clipOf(false));
    report("100 steps, every frame marked, with errors", clipOf(true));
    return 0;
}
