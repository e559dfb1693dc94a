// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/runner_model.hpp"
#include "tests/catch.hpp"
#include "tests/sample_clips/group_table.hpp"

#include <algorithm>
#include <functional>

using namespace latemile::maker;
using latemile::test::bodyProportion;
using latemile::test::groupRange;

namespace {
RunnerModel modelOf(const RunnerRecipe& recipe, double duration = 2.0)
{
    auto model = RunnerModel::create(recipe, duration);
    REQUIRE(model);
    return *std::move(model);
}

/// Recipes far apart: both ends of fatigue, each landing, fast and slow, planar and over ground.
RunnerRecipe anyRecipe()
{
    return GENERATE(RunnerRecipe{}, RunnerRecipe{.seed = 5, .fatigue = 1.0},
                    RunnerRecipe{.seed = 9, .speed = 3.4, .stepRate = 172.0},
                    RunnerRecipe{.seed = 2, .speed = 2.0, .landing = Landing::Midfoot},
                    RunnerRecipe{.seed = 3, .stature = 185.0, .landing = Landing::Forefoot},
                    RunnerRecipe{.seed = 4, .planar = true},
                    RunnerRecipe{.seed = 6, .speed = 3.0, .overground = true});
}

/// Calls back for every stance that lies within the first two seconds.
void eachStance(const RunnerModel& model, const std::function<void(const Footfall&)>& look)
{
    int seen = 0;
    for (const auto& fall : model.footfalls()) {
        if (fall.contact > 0.0 && fall.toeOff < 2.0) {
            look(fall);
            ++seen;
        }
    }
    REQUIRE(seen >= 3);
}

double kneeBend(const SidePose& leg)
{
    const Vec3 thigh = leg.knee - leg.upper.hip;
    const Vec3 shank = leg.ankle - leg.knee;
    const double cosine = dot(thigh, shank) / (length(thigh) * length(shank));
    return degrees(std::acos(std::clamp(cosine, -1.0, 1.0)));
}
} // namespace

TEST_CASE("segments of the modelled runner never change their length", "[maker]")
{
    const auto recipe = anyRecipe();
    const auto model = modelOf(recipe);
    const Body& body = model.body();
    for (double t = 0.0; t < 2.0; t += 0.0037) {
        const Pose pose = model.pose(t);
        for (const auto& side : {pose.left, pose.right}) {
            CHECK(length(side.knee - side.upper.hip) == Approx(body.thigh).margin(1e-9));
            CHECK(length(side.ankle - side.knee) == Approx(body.shank).margin(1e-9));
            CHECK(length(side.upper.elbow - side.upper.shoulder) ==
                  Approx(body.upperArm).margin(1e-9));
            CHECK(length(side.upper.wrist - side.upper.elbow) == Approx(body.forearm).margin(1e-9));
            CHECK(length(side.ball - side.heel) == Approx(body.ball.x).margin(1e-9));
        }
    }
}

TEST_CASE("segment lengths are those published for the stature", "[maker][outside]")
{
    // Drillis and Contini (1966), in Winter, Biomechanics and Motor Control of Human Movement, fig.
    // 4.1: tests/outside/data/body_proportions.csv. Most of its rows are from memory.
    const Body body(178.0);
    CHECK(body.thigh / 178.0 == Approx(bodyProportion("thigh_length")).margin(1e-6));
    CHECK(body.shank / 178.0 == Approx(bodyProportion("shank_length")).margin(1e-6));
    CHECK(body.upperArm / 178.0 == Approx(bodyProportion("upper_arm_length")).margin(1e-6));
    CHECK(body.forearm / 178.0 == Approx(bodyProportion("forearm_length")).margin(1e-6));
    CHECK(body.trunk / 178.0 ==
          Approx(bodyProportion("height_shoulder") - bodyProportion("height_hip")).margin(1e-6));
}

TEST_CASE("a flat foot moves with the belt and with nothing else", "[maker]")
{
    const auto recipe = anyRecipe();
    const auto model = modelOf(recipe);
    const double ground = recipe.overground ? 0.0 : -100.0 * recipe.speed;
    eachStance(model, [&](const Footfall& fall) {
        const double stance = fall.toeOff - fall.contact;
        const double from = fall.contact + flatFrom * stance;
        const double to = fall.contact + model.gait().flatUntil * stance;
        const auto start = model.pose(from).of(fall.foot);
        for (double t = from; t <= to; t += 0.004) {
            const auto now = model.pose(t).of(fall.foot);
            CHECK(now.heel.x - start.heel.x == Approx(ground * (t - from)).margin(1e-6));
            CHECK(now.toe.x - start.toe.x == Approx(ground * (t - from)).margin(1e-6));
            CHECK(now.heel.y == Approx(0.0).margin(1e-9));
        }
    });
}

TEST_CASE("some point of the shoe rides the belt from contact to toe-off", "[maker]")
{
    const auto recipe = anyRecipe();
    const auto model = modelOf(recipe);
    const double ground = recipe.overground ? 0.0 : -100.0 * recipe.speed;
    eachStance(model, [&](const Footfall& fall) {
        constexpr double h = 1e-4;
        for (double t = fall.contact + 2 * h; t < fall.toeOff - 2 * h; t += 0.003) {
            const auto before = model.pose(t - h).of(fall.foot);
            const auto after = model.pose(t + h).of(fall.foot);
            // The tip's pivot on the sole: seen from the toe mark, back along the shoe's front.
            const auto pivot = [&](const SidePose& leg) {
                const Vec2 back =
                    turned(model.body().toePivot - model.body().toe, leg.shoePitch + leg.shoeBend);
                return Vec2{leg.toe.x + back.x, leg.toe.y + back.y};
            };
            const double heel = (after.heel.x - before.heel.x) / (2 * h);
            const double tip = (pivot(after).x - pivot(before).x) / (2 * h);
            const double nearer = std::abs(heel - ground) < std::abs(tip - ground) ? heel : tip;
            CHECK(nearer == Approx(ground).margin(0.5));
        }
    });
}

TEST_CASE("a foot in the air is above the ground", "[maker]")
{
    const auto recipe = anyRecipe();
    const auto model = modelOf(recipe);
    for (double t = 0.0; t < 2.0; t += 0.001) {
        const Pose pose = model.pose(t);
        for (const auto& side : {pose.left, pose.right}) {
            CHECK(side.heel.y > -0.21);
            CHECK(side.toe.y > -0.21);
            if (side.grounded) {
                CHECK(std::min(side.heel.y, side.toe.y) < 1.7);
            }
        }
    }
}

TEST_CASE("no landmark jumps, nor does its velocity", "[maker]")
{
    const auto recipe = anyRecipe();
    const auto model = modelOf(recipe);
    constexpr double h = 2e-5;
    const auto points = [&](double t) {
        const Pose pose = model.pose(t);
        std::vector<Vec3> list;
        for (const auto& side : {pose.left, pose.right}) {
            list.insert(list.end(),
                        {side.upper.ear, side.upper.shoulder, side.upper.elbow, side.upper.wrist,
                         side.upper.hip, side.knee, side.ankle, side.heel, side.toe});
        }
        return list;
    };
    double worst = 0.0; // change of velocity from one h to the next, cm/s
    const auto probe = [&](double t) {
        const auto a = points(t - h);
        const auto b = points(t);
        const auto c = points(t + h);
        for (std::size_t i = 0; i < a.size(); ++i) {
            worst = std::max(worst, length((c[i] - b[i]) - (b[i] - a[i])) / h);
        }
    };
    for (double t = 0.01; t < 1.99; t += 0.0011) {
        probe(t);
    }
    eachStance(model, [&](const Footfall& fall) {
        for (const double event : {fall.contact, fall.toeOff}) {
            probe(event - 0.5 * h);
            probe(event);
            probe(event + 0.5 * h);
        }
    });
    // Real feet reach some 300 m/s2 as they land; a jump of velocity would show as more than 1 cm/s
    // within 20 microseconds.
    CHECK(worst < 1.0);
}

TEST_CASE("the modelled runner keeps to what groups of runners do", "[maker][outside]")
{
    // tests/outside/data/group_values.csv. Contact, flight, stride frequency and duty factor at 2.7
    // m/s: Karamanidis and Arampatzis (2005) J Exp Biol 208:3907, table 4. Knee at contact and its
    // peak in stance at 2.9 m/s: Heiderscheit et al. (2011) Med Sci Sports Exerc 43:296, table 3.
    const double fatigue = GENERATE(0.0, 1.0);
    const auto landing = GENERATE(Landing::Rearfoot, Landing::Midfoot, Landing::Forefoot);
    const auto model =
        modelOf({.seed = 11, .landing = landing, .fatigue = fatigue, .variability = 0.5});
    const auto within = [](double value, const std::string& measure, double from, double to) {
        const auto range = groupRange(measure, from, to);
        INFO(measure << " " << value);
        CHECK(value >= range.low);
        CHECK(value <= range.high);
    };
    const auto& falls = model.footfalls();
    for (std::size_t i = 0; i + 2 < falls.size(); ++i) {
        const double contact = falls[i].toeOff - falls[i].contact;
        const double stride = falls[i + 2].contact - falls[i].contact;
        within(1000 * contact, "contact_time", 2.6, 2.8);
        within(1000 * (falls[i + 1].contact - falls[i].toeOff), "flight_time", 2.6, 2.8);
        within(1.0 / stride, "stride_frequency", 2.6, 2.8);
        within(100 * contact / stride, "duty_factor", 2.6, 2.8);
        within(270.0 * 0.5 * stride, "step_length", 2.6, 2.8);
    }
    eachStance(model, [&](const Footfall& fall) {
        double peak = 0.0;
        for (double t = fall.contact; t < fall.toeOff; t += 0.002) {
            peak = std::max(peak, kneeBend(model.pose(t).of(fall.foot)));
        }
        within(kneeBend(model.pose(fall.contact).of(fall.foot)), "knee_flexion_at_contact", 2.8,
               3.0);
        within(peak, "knee_flexion_peak_stance", 2.8, 3.0);
    });
}

TEST_CASE("fatigue moves the runner as it moves groups of runners", "[maker][outside]")
{
    // Contact longer at equal speed, step rate down by about 1 % or unchanged, trunk lean up: the
    // reviews and the study of Hunter and Smith (2007) named in tests/outside/data/group_values.csv
    // (1.45 to 1.43 strides a second).
    const Gait fresh{RunnerRecipe{}};
    const Gait late{RunnerRecipe{.fatigue = 1.0}};
    const double slower = late.stepTime / fresh.stepTime - 1.0;
    CHECK(late.contactTime > fresh.contactTime);
    CHECK(slower >= 0.0);
    CHECK(slower <= 0.03);
    CHECK(late.lean > fresh.lean);
}

TEST_CASE("a planar runner has no width", "[maker]")
{
    const auto model = modelOf({.seed = 8, .planar = true});
    for (double t = 0.0; t < 2.0; t += 0.01) {
        const Pose pose = model.pose(t);
        for (const auto& side : {pose.left, pose.right}) {
            for (const Vec3 place : {side.upper.ear, side.upper.shoulder, side.upper.wrist,
                                     side.upper.hip, side.knee, side.ankle, side.toe}) {
                CHECK(place.z == Approx(0.0).margin(1e-9));
            }
        }
    }
}

TEST_CASE("a speed no leg can follow is refused with a sentence", "[maker]")
{
    const auto model = RunnerModel::create(
        {.speed = 4.5, .stepRate = 140.0, .stature = 142.0, .fatigue = 1.0}, 1.0);
    REQUIRE_FALSE(model);
    CHECK(model.error().sentence.find("steps a minute") != std::string::npos);
    CHECK_FALSE(RunnerModel::create({.speed = 9.0}, 1.0));
}
