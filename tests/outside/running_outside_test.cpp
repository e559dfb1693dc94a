// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/running.json: the mile is 1609.344 m by definition (exact rationals);
// body_proportions.csv: Drillis & Contini 1966 in Winter, Biomechanics and Motor Control of Human
// Movement, fig. 4.1 (four fractions read, the rest from memory).
#include "core/csv.hpp"
#include "core/measures/prepared_clip.hpp"
#include "core/scene/speed.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using namespace latemile::testing;

namespace {

double fractionOf(const CsvTable& table, std::string_view quantity)
{
    for (const auto& row : table.rows()) {
        if (row.text("quantity") == quantity) {
            return row.number("fraction_of_stature").value();
        }
    }
    FAIL("no such quantity");
    return 0.0;
}

/// A leg of a thigh and a shank of so many pixels, one on top of the other.
MarkedClip standing(double thighPx, double shankPx, double legCm)
{
    MarkedClip clip;
    clip.conditions.scene.view = View::RightSide;
    clip.conditions.scene.travel = Travel::Right;
    clip.conditions.scene.plumb = PlumbLine{{100, 100}, {100, 900}};
    clip.athlete.legLengthCm = legCm;
    clip.index = FrameIndex({Seconds{0.0}, Seconds{0.004}});
    const auto put = [&](Landmark landmark, double v) {
        clip.marking.marks[{{0}, BodySide::Near, landmark}] = {
            {500.0, v}, Origin::Placed, std::nullopt};
    };
    put(Landmark::Hip, 200.0);
    put(Landmark::Knee, 200.0 + thighPx);
    put(Landmark::Ankle, 200.0 + thighPx + shankPx);
    return clip;
}

} // namespace

TEST_CASE("paces are speeds by the definition of the mile", "[scene][outside]")
{
    int checked = 0;
    const auto data = referenceJson("running.json");
    for (const auto& given : data.at("pace_cases")) {
        const auto unit = given.at("per").get<std::string>() == "mile" ? SpeedUnit::MinutesPerMile
                                                                       : SpeedUnit::MinutesPerKm;
        const auto pace = given.at("pace").get<std::string>();
        INFO(pace << " a " << given.at("per"));
        const auto speed = speedFrom(pace, unit);
        REQUIRE(speed);
        const auto& expect = given.at("expect");
        CHECK(*speed == Approx(expect.at("speed_mps").get<double>()).epsilon(1e-6));
        CHECK(speedText(*speed, unit) == pace);
        CHECK(*speedFrom(std::to_string(expect.at("speed_kmh").get<double>()),
                         SpeedUnit::KmPerHour) == Approx(*speed).epsilon(1e-5));
        ++checked;
    }
    CHECK(checked == 6);
}

TEST_CASE("a leg serves as the ruler by published proportions", "[measures][outside]")
{
    const auto table = CsvTable::read(referenceFile("body_proportions.csv")).value();
    const double thigh = fractionOf(table, "thigh_length");
    const double shank = fractionOf(table, "shank_length");
    const double leg = fractionOf(table, "height_hip");
    for (const double stature : {165.0, 178.0}) {
        // Drawn 3 px a centimetre: the scale must come out as a third of a centimetre a pixel.
        const auto clip =
            prepare(standing(3.0 * thigh * stature, 3.0 * shank * stature, leg * stature)).value();
        CHECK(clip.plane.cmPerPixel({500, 500}) == Approx(1.0 / 3.0).epsilon(1e-6));
        CHECK(clip.plane.scaleFrom() == ScaleFrom::LegLength);
    }
}

TEST_CASE("times of given events are those of exact arithmetic", "[measures][outside]")
{
    int checked = 0;
    const auto data = referenceJson("running.json");
    for (const auto& given : data.at("event_cases")) {
        INFO(given.at("id"));
        MarkedClip clip;
        clip.conditions.scene.view = View::RightSide;
        clip.conditions.scene.travel = Travel::Right;
        clip.conditions.scene.beltSpeed = given.at("speed_mps").get<double>();
        std::vector<Seconds> times;
        for (int i = 0; i < 1200; ++i) {
            times.push_back(Seconds{0.002 * i});
        }
        clip.index = FrameIndex(times);
        for (const auto& event : given.at("events_foot_contact_toeoff_s")) {
            const auto toeOff =
                event[2].is_null() ? std::nullopt : std::optional(Seconds{event[2].get<double>()});
            clip.marking.stances.push_back({*footNamed(event[0].get<std::string>()),
                                            Seconds{event[1].get<double>()}, toeOff, Origin::Placed,
                                            std::nullopt});
        }
        const auto readings = readingsOf(clip).value();
        const auto compare = [&](std::string_view id, const nlohmann::json& expected) {
            std::size_t i = 0;
            for (const auto& reading : readings.readings) {
                if (reading.measure == id && reading.step && i < expected.size()) {
                    INFO(id << " " << i);
                    const auto& wanted = expected[i++];
                    CHECK(reading.value.has_value() != wanted.is_null());
                    if (!wanted.is_null()) {
                        CHECK(*reading.value == Approx(wanted.get<double>()).epsilon(1e-7));
                        ++checked;
                    }
                }
            }
        };
        const auto& expect = given.at("expect");
        compare("contact_time", expect.at("contact_ms"));
        compare("flight_time", expect.at("flight_ms"));
        compare("duty_factor", expect.at("duty_factor_percent"));
        for (const auto& reading : readings.readings) {
            if (reading.measure == "step_rate" && !reading.step) {
                CHECK(*reading.value ==
                      Approx(expect.at("step_rate_per_min").get<double>()).epsilon(1e-7));
                // On a belt the mean step is the way of the belt in the mean step's time.
                CHECK(*clip.conditions.scene.beltSpeed * 60.0 / *reading.value ==
                      Approx(expect.at("mean_step_length_m").get<double>()).epsilon(1e-5));
                ++checked;
            }
        }
    }
    CHECK(checked >= 18);
}
