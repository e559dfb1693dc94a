// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/sheet_content.hpp"
#include "core/sheet/still_choice.hpp"
#include "core/sheet/still_crop.hpp"
#include "core/sheet/still_drawing.hpp"

#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

/// Contact of the worked example: travel right, plumb upright, 0.4 cm a pixel. The vectors were
/// computed by hand and by two independent programs: head 6.843 degrees and so on.
Marking workedExample()
{
    Marking marking;
    const auto put = [&](Landmark landmark, double u, double v) {
        marking.marks[{FrameNumber{7}, BodySide::Near, landmark}] = {{u, v}, Origin::Placed, {}};
    };
    put(Landmark::Shoulder, 975, 655);
    put(Landmark::Hip, 960, 780);
    put(Landmark::Knee, 1008, 875);
    put(Landmark::Ankle, 1025, 975);
    return marking;
}

Plane levelPlane()
{
    Scene scene;
    scene.view = View::RightSide;
    scene.travel = Travel::Right;
    scene.scale = ScaleLine{{100, 100}, {600, 100}, 200.0};
    scene.plumb = PlumbLine{{50, 100}, {50, 900}};
    return *Plane::from(scene);
}

StillMeasured drawn(const char* measure)
{
    return *drawingOf(*findMeasure(measure), workedExample(), FrameNumber{7}, levelPlane());
}

FrameIndex hundredASecond(int frames)
{
    std::vector<Seconds> times;
    for (int i = 0; i < frames; ++i) {
        times.emplace_back(i / 100.0);
    }
    return FrameIndex(times);
}

/// Three left steps, each with hip, knee and ankle at contact and mid-stance.
struct Clip {
    Clip()
    {
        for (int i = 0; i < 3; ++i) {
            Step step;
            step.number = StepNumber{2 * i + 1};
            step.foot = Foot::Left;
            step.contact = Seconds{0.1 + i};
            step.toeOff = Seconds{0.3 + i};
            readings.steps.push_back(step);
            for (const double time : {0.1 + i, 0.2 + i}) {
                for (const Landmark landmark : {Landmark::Hip, Landmark::Knee, Landmark::Ankle}) {
                    marking.marks[{FrameNumber{std::lround(100.0 * time)}, BodySide::Near,
                                   landmark}] = {{100, 100}, Origin::Placed, {}};
                }
            }
        }
    }
    void addReadings(std::vector<double> values)
    {
        for (std::size_t i = 0; i < values.size(); ++i) {
            Reading reading;
            reading.measure = "foot_ahead";
            reading.step = StepNumber{static_cast<int>(2 * i + 1)};
            reading.foot = Foot::Left;
            reading.value = values[i];
            reading.confirmed = true;
            readings.readings.push_back(reading);
        }
    }
    [[nodiscard]] std::optional<Step> typical(Foot foot = Foot::Left) const
    {
        return typicalStep(readings, marking, index, foot, {"foot_ahead"}, defaultStillInstants());
    }
    FrameIndex index = hundredASecond(400);
    Marking marking;
    Readings readings;
};

} // namespace

TEST_CASE("the gap drawn from hip to ankle is the measured 26 cm long and level", "[sheet]")
{
    // measures: worked example, foot_ahead 26.000 cm at 0.4 cm a pixel = 65 px; plumb from the hip
    // at u = 960 down to the ankle's row 975.
    const auto gap = drawn("foot_ahead");
    REQUIRE(gap.lines.size() == 2);
    CHECK(gap.lines[0].from == PixelPoint{960, 780});
    CHECK(gap.lines[1].from.u == Approx(960.0));
    CHECK(gap.lines[1].from.v == Approx(975.0));
    CHECK(gap.lines[1].to == PixelPoint{1025, 975});
    CHECK(gap.labelAt.u == Approx(992.5));
}

TEST_CASE("the arc of the trunk is as wide as the trunk's lean", "[sheet]")
{
    // Hip (960,780), shoulder (975,655): atan2(15, 125) = 6.843 degrees.
    const auto lean =
        drawingOf(*findMeasure("trunk_lean"), workedExample(), FrameNumber{7}, levelPlane());
    REQUIRE(lean);
    REQUIRE(lean->arcs.size() == 1);
    CHECK(lean->arcs[0].fromDegrees == Approx(90.0));
    CHECK(lean->arcs[0].fromDegrees - lean->arcs[0].toDegrees == Approx(6.843).margin(0.001));
}

TEST_CASE("the arc of the knee is as wide as its flexion", "[sheet]")
{
    // Worked example: knee flexion at contact 17.158 degrees.
    const auto knee = drawn("knee_flex_contact");
    REQUIRE(knee.arcs.size() == 1);
    CHECK(std::abs(knee.arcs[0].toDegrees - knee.arcs[0].fromDegrees) ==
          Approx(17.158).margin(0.001));
}

TEST_CASE("a rolled camera turns the verticals drawn with it", "[sheet]")
{
    Scene scene;
    scene.view = View::RightSide;
    scene.travel = Travel::Right;
    scene.plumb = PlumbLine{{0, 0}, {10, 100}}; // the world's down leans to the picture's right
    const StillLine line = plumbThrough({500, 500}, 400, 700, *Plane::from(scene));
    CHECK(line.from.u == Approx(490.0));
    CHECK(line.to.u == Approx(520.0));
}

TEST_CASE("a measure without its landmarks draws nothing", "[sheet]")
{
    CHECK_FALSE(
        drawingOf(*findMeasure("head_forward"), workedExample(), FrameNumber{7}, levelPlane()));
    CHECK_FALSE(
        drawingOf(*findMeasure("contact_time"), workedExample(), FrameNumber{7}, levelPlane()));
    CHECK_FALSE(
        drawingOf(*findMeasure("foot_ahead"), workedExample(), FrameNumber{8}, levelPlane()));
}

TEST_CASE("the step nearest the median is shown, of two alike the earlier", "[sheet]")
{
    Clip clip;
    clip.addReadings({10.0, 14.0, 13.0});
    CHECK(clip.typical()->number == StepNumber{5}); // 13 is the median of 10, 13, 14
    Clip alike;
    alike.addReadings({12.0, 12.0, 12.0});
    CHECK(alike.typical()->number == StepNumber{1});
    CHECK_FALSE(alike.typical(Foot::Right));
}

TEST_CASE("a confirmed step goes before a nearer unconfirmed one", "[sheet]")
{
    Clip clip;
    clip.addReadings({10.0, 14.0, 13.0});
    clip.readings.readings[2].confirmed = false;
    CHECK(clip.typical()->number == StepNumber{1}); // 10 and 14 lie as far from their median
}

TEST_CASE("what nobody confirmed has no say in which step is typical", "[sheet]")
{
    Clip clip;
    clip.addReadings({10.0, 14.0, 13.0});
    clip.readings.readings[1].confirmed = false;
    CHECK(clip.typical()->number == StepNumber{1}); // 13, the median of all three, were the third
}

TEST_CASE("a step without a hip at mid-stance cannot be shown", "[sheet]")
{
    Clip clip;
    clip.addReadings({10.0, 14.0, 13.0});
    clip.marking.marks.erase({FrameNumber{220}, BodySide::Near, Landmark::Hip});
    CHECK_FALSE(
        canBeShown(clip.readings.steps[2], clip.marking, clip.index, defaultStillInstants()));
    CHECK(clip.typical()->number == StepNumber{3});
}

TEST_CASE("an instant counts as confirmed only when all that is asked for there was placed",
          "[sheet]")
{
    Clip clip;
    // Knee and ankle at contact, hip at mid-stance and toe-off; toe-off bears no mark.
    const AskedLandmarks asked({"shank_angle", "hips_behind"});
    const auto counted = [&](Foot near = Foot::Left) {
        return countInstants(clip.readings.steps, clip.marking, clip.index, near, asked);
    };
    CHECK(counted().marked == 6); // three steps, contact and mid-stance
    CHECK(counted().confirmed == 6);
    clip.marking.marks[{FrameNumber{10}, BodySide::Near, Landmark::Knee}].origin = Origin::Followed;
    clip.readings.steps[1].origin = Origin::Proposed;
    CHECK(counted().marked == 6);
    CHECK(counted().confirmed == 3);
    // What nobody was asked for is not missed: proposals of the ear on each frame.
    for (std::int64_t i = 0; i < clip.index.size(); ++i) {
        clip.marking.marks[{FrameNumber{i}, BodySide::Near, Landmark::Ear}] = {
            {90, 20}, Origin::Proposed, 9.0};
    }
    CHECK(counted().marked == 6);
    CHECK(counted().confirmed == 3);
    CHECK(counted(Foot::Right).marked == 0);
}

TEST_CASE("crops hold every landmark and are of one size in centimetres", "[sheet]")
{
    // The same body filmed at 0.4 and at 0.8 cm a pixel, elsewhere in the picture.
    Still fresh;
    fresh.landmarks = {{Landmark::Ear, {300, 100}, true}, {Landmark::Toe, {250, 500}, true}};
    Still fatigued;
    fatigued.landmarks = {{Landmark::Ear, {650, 350}, true}, {Landmark::Toe, {625, 550}, true}};
    cropAlike({{&fresh, {300, 300}, 0.4}, {&fatigued, {650, 450}, 0.8}});
    const double width = fresh.cropTo.u - fresh.cropFrom.u;
    CHECK(width == Approx(2.0 * (fatigued.cropTo.u - fatigued.cropFrom.u)));
    CHECK(width / (fresh.cropTo.v - fresh.cropFrom.v) == Approx(stillAspect));
    CHECK((300 - fresh.cropFrom.u) / width == Approx((650 - fatigued.cropFrom.u) / (width / 2.0)));
    for (const Still* still : {&fresh, &fatigued}) {
        for (const StillMark& mark : still->landmarks) {
            CHECK(mark.at.u > still->cropFrom.u);
            CHECK(mark.at.u < still->cropTo.u);
            CHECK(mark.at.v > still->cropFrom.v);
            CHECK(mark.at.v < still->cropTo.v);
        }
    }
}
