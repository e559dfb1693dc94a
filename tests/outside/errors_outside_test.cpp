// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/error_propagation.json: JCGM 100:2008 (GUM) 5.1.2, from memory, confirmed by
// 400,000 draws each (NumPy 1.24.2); peak_fit.json: NumPy and R 4.2.2 lm; running.json: the mile is
// 1609.344 m exactly.
#include "core/measures/measure.hpp"
#include "core/measures/peak_fit.hpp"
#include "core/measures/propagation.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using namespace latemile::testing;

namespace {

using Points = std::map<Landmark, std::pair<PixelPoint, double>>; // where, and its standard error

/// One right step with the same marks at contact and at mid-stance, 1 cm a pixel.
PreparedClip clipWith(const Points& points)
{
    MarkedClip clip;
    clip.conditions.scene.view = View::RightSide;
    clip.conditions.scene.travel = Travel::Right;
    clip.conditions.scene.scale = ScaleLine{{0, 0}, {1000, 0}, 1000.0};
    std::vector<Seconds> times;
    for (int i = 0; i < 200; ++i) {
        times.push_back(Seconds{0.002 * i});
    }
    clip.index = FrameIndex(times);
    clip.marking.stances = {
        {Foot::Right, Seconds{0.1}, Seconds{0.35}, Origin::Placed, std::nullopt}};
    for (const auto frame : {50, 112}) {
        for (const auto& [landmark, point] : points) {
            clip.marking.marks[{{frame}, BodySide::Near, landmark}] = {point.first, Origin::Placed,
                                                                       point.second};
        }
    }
    return prepare(clip).value();
}

double errorFromMarks(const PreparedClip& clip, std::string_view id)
{
    const auto* measure = findMeasure(id);
    return std::sqrt(propagate(clip, *measure, measure->formula, 0).shares.marks);
}

} // namespace

TEST_CASE("the error of a segment's angle is that of the GUM and of 400,000 draws",
          "[measures][outside]")
{
    const auto data = referenceJson("error_propagation.json");
    for (const auto& given : data.at("segment_cases")) {
        const double dx = given.at("dx_px").get<double>();
        const double dy = given.at("dy_px").get<double>();
        const auto clip =
            clipWith({{Landmark::Hip, {{500, 700}, given.at("sigma_end1_px").get<double>()}},
                      {Landmark::Shoulder,
                       {{500 + dx, 700 - dy}, given.at("sigma_end2_px").get<double>()}}});
        const double got = errorFromMarks(clip, "trunk_lean");
        const auto& expect = given.at("expect");
        CHECK(got == Approx(expect.at("segment_angle_se_deg").get<double>()).epsilon(1e-4));
        CHECK(got == Approx(expect.at("monte_carlo_deg").get<double>()).epsilon(0.01));
    }
}

TEST_CASE("the error of a joint's angle is that of the GUM and of 400,000 draws",
          "[measures][outside]")
{
    const auto data = referenceJson("error_propagation.json");
    for (const auto& given : data.at("joint_cases")) {
        const double sigma = given.at("sigma_px").get<double>();
        const auto point = [&](const char* key) {
            return std::pair{PixelPoint{given.at(key)[0].get<double>() + 500.0,
                                        given.at(key)[1].get<double>() + 500.0},
                             sigma};
        };
        const auto clip = clipWith({{Landmark::Hip, point("proximal_px")},
                                    {Landmark::Knee, point("joint_px")},
                                    {Landmark::Ankle, point("distal_px")}});
        const double got = errorFromMarks(clip, "knee_flex_contact");
        const auto& expect = given.at("expect");
        CHECK(got == Approx(expect.at("joint_angle_se_deg").get<double>()).epsilon(1e-4));
        CHECK(got == Approx(expect.at("monte_carlo_deg").get<double>()).epsilon(0.01));
    }
}

TEST_CASE("a scale error moves a distance by its share", "[measures][outside]")
{
    const auto data = referenceJson("error_propagation.json");
    for (const auto& given : data.at("scale_cases")) {
        const double reading = given.at("reading_cm").get<double>();
        const auto& expect = given.at("expect");
        auto clip = clipWith(
            {{Landmark::Hip, {{500, 500}, 1.0}}, {Landmark::Ankle, {{500 + reading, 600}, 1.0}}});
        clip.plane = clip.plane.withScale(1.0, expect.at("relative_se_of_scale").get<double>(),
                                          ScaleFrom::Line);
        const auto* measure = findMeasure("foot_ahead");
        const auto got = propagate(clip, *measure, measure->formula, 0);
        CHECK(*got.value == Approx(reading));
        CHECK(std::sqrt(got.shares.scale) ==
              Approx(expect.at("scale_part_of_reading_se_cm").get<double>()).epsilon(1e-6));
    }
}

TEST_CASE("a parabola's vertex is that of NumPy and of R's lm", "[measures][outside]")
{
    const auto data = referenceJson("peak_fit.json");
    for (const auto& given : data.at("three_point_cases")) {
        INFO(given.at("id"));
        const double middle = given.at("time_of_middle_sample_s").get<double>();
        const double step = given.at("sample_interval_s").get<double>();
        std::vector<Sample> samples;
        for (int i = 0; i < 3; ++i) {
            samples.push_back(
                {middle + (i - 1) * step,
                 given.at("y_before_at_after")[static_cast<std::size_t>(i)].get<double>()});
        }
        const auto kind = samples[1].value > samples[0].value ? Extreme::Highest : Extreme::Lowest;
        const auto vertex = parabolaVertex(samples, kind);
        REQUIRE(vertex);
        CHECK(vertex->time == Approx(given.at("expect").at("time_s").get<double>()).epsilon(1e-8));
        CHECK(vertex->value == Approx(given.at("expect").at("value").get<double>()).epsilon(1e-8));
    }
    for (const auto& given : data.at("least_squares_cases")) {
        INFO(given.at("id"));
        std::vector<Sample> samples;
        for (std::size_t i = 0; i < given.at("t_s").size(); ++i) {
            samples.push_back({given.at("t_s")[i].get<double>(), given.at("y")[i].get<double>()});
        }
        const auto kind = samples[samples.size() / 2].value > samples[0].value ? Extreme::Highest
                                                                               : Extreme::Lowest;
        const auto vertex = parabolaVertex(samples, kind);
        REQUIRE(vertex);
        CHECK(vertex->time ==
              Approx(given.at("expect").at("vertex_time_s").get<double>()).epsilon(1e-8));
        CHECK(vertex->value ==
              Approx(given.at("expect").at("vertex_value").get<double>()).epsilon(1e-8));
    }
}

TEST_CASE("a step is as long as speed and step rate make it", "[measures][outside]")
{
    const auto data = referenceJson("running.json");
    for (const auto& given : data.at("identity_cases")) {
        INFO(given.at("id"));
        const double rate = given.at("step_rate_per_min").get<double>();
        MarkedClip clip;
        clip.conditions.scene.view = View::RightSide;
        clip.conditions.scene.travel = Travel::Right;
        clip.conditions.scene.beltSpeed = given.at("speed_mps").get<double>();
        std::vector<Seconds> times;
        for (int i = 0; i < 1000; ++i) {
            times.push_back(Seconds{0.004 * i});
        }
        clip.index = FrameIndex(times);
        for (int n = 0; n < 9; ++n) {
            const Seconds contact{0.1 + n * 60.0 / rate};
            clip.marking.stances.push_back({n % 2 == 0 ? Foot::Right : Foot::Left, contact,
                                            contact + Seconds{0.25}, Origin::Placed, std::nullopt});
        }
        const auto prepared = prepare(clip).value();
        const auto ofRun = [&](std::string_view id) {
            Evidence evidence(prepared, 0);
            return findMeasure(id)->clipFormula(evidence);
        };
        CHECK(ofRun("step_rate") == Approx(rate).epsilon(1e-6));
        CHECK(ofRun("step_length") ==
              Approx(given.at("expect").at("step_length_m").get<double>()).epsilon(1e-6));
        Evidence stride(prepared, 2);
        CHECK(stride.strideEnd() - stride.contact() ==
              Approx(given.at("expect").at("stride_time_s").get<double>()).epsilon(1e-6));
    }
}

TEST_CASE("stiffness is that of the sine-force model", "[measures][outside]")
{
    // Morin et al. 2005, J Appl Biomech 21:167 (formulas from memory, confirmed by integrating the
    // force in NumPy).
    int checked = 0;
    const auto data = referenceJson("running.json");
    for (const auto& given : data.at("sine_model_cases")) {
        INFO(given.at("id"));
        const double contact = given.at("contact_s").get<double>();
        const double flight = given.at("flight_s").get<double>();
        MarkedClip clip;
        clip.conditions.scene.view = View::RightSide;
        clip.conditions.scene.travel = Travel::Right;
        clip.conditions.scene.beltSpeed = given.at("speed_mps").get<double>();
        clip.athlete.massKg = given.at("mass_kg").get<double>();
        clip.athlete.legLengthCm = 100.0 * given.at("leg_length_m").get<double>();
        std::vector<Seconds> times;
        for (int i = 0; i < 1000; ++i) {
            times.push_back(Seconds{0.004 * i});
        }
        clip.index = FrameIndex(times);
        for (int n = 0; n < 7; ++n) {
            const Seconds start{0.1 + n * (contact + flight)};
            clip.marking.stances.push_back({n % 2 == 0 ? Foot::Right : Foot::Left, start,
                                            start + Seconds{contact}, Origin::Placed,
                                            std::nullopt});
        }
        const auto readings = readingsOf(clip).value();
        for (const auto& [id, key] :
             {std::pair{"k_vert", "k_vert_kN_per_m"}, std::pair{"k_leg", "k_leg_kN_per_m"}}) {
            for (const auto& reading : readings.readings) {
                if (reading.measure == id) {
                    INFO(id << " " << reading.reason);
                    if (flight <= 0.0) {
                        CHECK_FALSE(reading.value);
                    } else {
                        CHECK(reading.value.value() ==
                              Approx(given.at("expect").at(key).get<double>()).epsilon(1e-5));
                    }
                    ++checked;
                }
            }
        }
    }
    CHECK(checked == 8);
}
