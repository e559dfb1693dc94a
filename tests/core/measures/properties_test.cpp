// SPDX-License-Identifier: GPL-3.0-or-later
// What must hold of any marking, whoever it is of.
#include "tests/core/measures/worked_example.hpp"

#include "core/measures/evidence.hpp"
#include "core/measures/measure.hpp"

#include "tests/catch.hpp"

#include <cmath>
#include <random>

using namespace latemile;
using namespace latemile::testing;

namespace {

/// Many steps, each the worked example's figure shaken by a few pixels, marked on every frame
/// around the instants; contact of both feet, the far ankle too.
MarkedClip shakenClip(unsigned seed, double interval = 1.0 / 240.0)
{
    std::mt19937 random(seed);
    std::normal_distribution<double> shake(0.0, 5.0);
    std::uniform_real_distribution<double> phase(0.0, 1.0);
    MarkedClip clip;
    clip.conditions.scene = exampleScene();
    clip.conditions.captureRate = 1.0 / interval;
    std::vector<Seconds> times;
    for (int i = 0; i < static_cast<int>(6.0 / interval); ++i) {
        times.push_back(Seconds{i * interval});
    }
    clip.index = FrameIndex(times);
    double contact = 0.1 + phase(random) * interval;
    for (int n = 0; n < 15; ++n, contact += 0.357 + 0.002 * shake(random) / 5.0) {
        const auto event = [&](double time) {
            return clip.index.eventTime(clip.index.firstAtOrAfter(Seconds{time}));
        };
        const auto foot = n % 2 == 0 ? Foot::Right : Foot::Left;
        const Stance stance{foot, event(contact), event(contact + 0.253), Origin::Placed,
                            std::nullopt};
        clip.marking.stances.push_back(stance);
        const auto steps = stepsOf({stance}, clip.index);
        for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
            const auto frame = *frameOf(steps[0], instant, clip.index);
            for (const auto& p : examplePoints) {
                const auto& at = instant == Instant::Contact     ? p.contact
                                 : instant == Instant::MidStance ? p.midStance
                                                                 : p.toeOff;
                const Mark mark{{at.u + shake(random), at.v + shake(random)}, Origin::Placed, 2.0};
                clip.marking.marks[{frame, BodySide::Near, p.landmark}] = mark;
                clip.marking.marks[{frame, BodySide::Far, p.landmark}] = mark;
            }
        }
    }
    return clip;
}

template <class Map>
MarkedClip withPoints(MarkedClip clip, Map map)
{
    for (auto& [key, mark] : clip.marking.marks) {
        mark.at = map(mark.at);
    }
    auto& scene = clip.conditions.scene;
    scene.scale->a = map(scene.scale->a);
    scene.scale->b = map(scene.scale->b);
    scene.plumb->top = map(scene.plumb->top);
    scene.plumb->bottom = map(scene.plumb->bottom);
    return clip;
}

/// Every value and standard error agrees, where `factor` tells how a measure's unit scales.
template <class Factor>
void checkAgree(const Readings& a, const Readings& b, Factor factor)
{
    REQUIRE(a.readings.size() == b.readings.size());
    int compared = 0;
    for (std::size_t i = 0; i < a.readings.size(); ++i) {
        INFO(a.readings[i].measure << " step " << a.readings[i].step.value_or(StepNumber{0}).value);
        REQUIRE(a.readings[i].value.has_value() == b.readings[i].value.has_value());
        if (a.readings[i].value) {
            const double f = factor(findMeasure(a.readings[i].measure)->unit);
            CHECK(*b.readings[i].value ==
                  Approx(f * *a.readings[i].value).epsilon(1e-9).margin(1e-7));
            ++compared;
        }
    }
    CHECK(compared > 100);
}

double unchanged(Unit)
{
    return 1.0;
}

} // namespace

TEST_CASE("mirroring the picture and the travel direction changes nothing", "[measures][property]")
{
    const auto clip = shakenClip(1);
    auto mirrored = withPoints(clip, [](PixelPoint p) { return PixelPoint{1920.0 - p.u, p.v}; });
    mirrored.conditions.scene.view = View::LeftSide;
    mirrored.conditions.scene.travel = Travel::Left;
    for (auto& stance : mirrored.marking.stances) {
        stance.foot = otherFoot(stance.foot);
    }
    // What is told left against right is told the other way round: not of this case.
    const auto unpaired = [](const MarkedClip& marked) {
        auto readings = readingsOf(marked).value();
        std::erase_if(readings.readings, [](const Reading& reading) {
            return findMeasure(reading.measure)->feet == Feet::Pairs;
        });
        return readings;
    };
    checkAgree(unpaired(clip), unpaired(mirrored), unchanged);
}

TEST_CASE("rotating picture and plumb together changes nothing", "[measures][property]")
{
    const auto clip = shakenClip(2);
    const double angle = 0.11;
    const auto turned = withPoints(clip, [angle](PixelPoint p) {
        const double u = p.u - 960.0;
        const double v = p.v - 540.0;
        return PixelPoint{960.0 + std::cos(angle) * u - std::sin(angle) * v,
                          540.0 + std::sin(angle) * u + std::cos(angle) * v};
    });
    checkAgree(*readingsOf(clip), *readingsOf(turned), unchanged);
}

TEST_CASE("moving the origin of the picture changes nothing", "[measures][property]")
{
    const auto clip = shakenClip(3);
    const auto moved = withPoints(clip, [](PixelPoint p) {
        return PixelPoint{p.u + 37.25, p.v - 12.5};
    });
    checkAgree(*readingsOf(clip), *readingsOf(moved), unchanged);
}

TEST_CASE("doubling the scale doubles lengths and leaves angles and times", "[measures][property]")
{
    auto clip = shakenClip(4);
    clip.conditions.scene.beltSpeed.reset(); // its distance does not come from the picture
    auto doubled = clip;
    doubled.conditions.scene.scale->lengthCm *= 2.0;
    checkAgree(*readingsOf(clip), *readingsOf(doubled), [](Unit unit) {
        return unit == Unit::Centimetre || unit == Unit::Metre ? 2.0 : 1.0;
    });
}

TEST_CASE("scaling all times scales times and divides rates", "[measures][property]")
{
    auto clip = shakenClip(5);
    clip.conditions.scene.beltSpeed.reset();
    auto slow = clip;
    const double c = 1.5;
    std::vector<Seconds> times;
    for (const auto t : clip.index.times()) {
        times.push_back(c * t);
    }
    slow.index = FrameIndex(times);
    for (auto& stance : slow.marking.stances) {
        stance.contact *= c;
        stance.toeOff = c * *stance.toeOff;
    }
    checkAgree(*readingsOf(clip), *readingsOf(slow), [c](Unit unit) {
        return unit == Unit::Millisecond ? c : unit == Unit::StepsPerMinute ? 1.0 / c : 1.0;
    });
}

TEST_CASE("dropping every second frame shifts mean contact time by less than its error",
          "[measures][property]")
{
    // Events fall anywhere between frames; by the half-frame rule the mean has no bias. Bound: 3 T
    // / sqrt(6 n), T the thinned interval (uniform error of two events: JCGM 100:2008, 4.3.7).
    const auto meanContact = [](const MarkedClip& clip) {
        double sum = 0.0;
        int n = 0;
        const auto readings = readingsOf(clip).value();
        for (const auto& reading : readings.readings) {
            if (reading.measure == "contact_time" && reading.value) {
                sum += *reading.value;
                ++n;
            }
        }
        return sum / n;
    };
    for (const unsigned seed : {10U, 11U, 12U, 13U, 14U}) {
        const auto full = meanContact(shakenClip(seed, 1.0 / 240.0));
        const auto thinned = meanContact(shakenClip(seed, 1.0 / 120.0));
        CHECK(std::abs(full - thinned) < 1000.0 * 3.0 / 120.0 / std::sqrt(6.0 * 15.0));
    }
}

namespace {

/// Not from a peak, the ground or the pelvis: what the worked example's marks suffice for.
bool needsInstantsOnly(const Measure& measure)
{
    const auto& all = measure.landmarks;
    const bool pelvis = std::find(all.begin(), all.end(), Landmark::Asis) != all.end();
    const bool path = !measure.instant;
    return !pelvis && !path && measure.over == Over::Step;
}

} // namespace

TEST_CASE("noise on the marks scatters readings by the stated standard error",
          "[measures][property]")
{
    // First-order propagation against 4 000 draws; the bound of 5 % is three standard deviations of
    // a simulated SD (1 / sqrt(2 n)) and the second-order rest.
    const auto clip = exampleClip();
    const auto stated = *readingsOf(clip);
    std::mt19937 random(7);
    std::normal_distribution<double> noise(0.0, 2.0);
    struct Sum {
        double x{}, xx{};
    };
    std::map<std::string, Sum> sums;
    constexpr int draws = 4000;
    for (int i = 0; i < draws; ++i) {
        auto drawn = clip;
        for (auto& [key, mark] : drawn.marking.marks) {
            mark.at.u += noise(random);
            mark.at.v += noise(random);
        }
        const auto prepared = *prepare(drawn);
        for (const auto& measure : measureTable()) {
            if (measure.landmarks.empty() || measure.over != Over::Step ||
                measure.id == "step_length" || measure.feet == Feet::Behind || measure.isClass ||
                !needsInstantsOnly(measure)) {
                continue;
            }
            Evidence evidence(prepared, 0);
            const double value = measure.formula(evidence);
            sums[std::string(measure.id)].x += value;
            sums[std::string(measure.id)].xx += value * value;
        }
    }
    CHECK(sums.size() >= 19);
    for (const auto& [id, sum] : sums) {
        INFO(id);
        const double mean = sum.x / draws;
        const double sd = std::sqrt(sum.xx / draws - mean * mean);
        CHECK(std::sqrt(findReading(stated, id)->shares.marks) == Approx(sd).epsilon(0.05));
    }
}
