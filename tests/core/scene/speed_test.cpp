// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/speed.hpp"
#include "tests/catch.hpp"

using namespace latemile;

TEST_CASE("a speed typed in any unit is the same metres a second", "[scene]")
{
    // By hand: 1000 m / 370 s = 2.7027 m/s; a mile is 1609.344 m by definition, so 9:55 a mile is
    // 1609.344 / 595 = 2.70478 m/s; 9.72 / 3.6 = 2.7; 6.04 x 1609.344 / 3600 = 2.70012.
    CHECK(*speedFrom("6:10", SpeedUnit::MinutesPerKm) == Approx(2.7027).margin(1e-4));
    CHECK(*speedFrom("6.5", SpeedUnit::MinutesPerKm) == Approx(1000.0 / 390.0));
    CHECK(*speedFrom(" 9:55 ", SpeedUnit::MinutesPerMile) == Approx(2.70478).margin(1e-5));
    CHECK(*speedFrom("9,72", SpeedUnit::KmPerHour) == Approx(2.7));
    CHECK(*speedFrom("6.04", SpeedUnit::MilesPerHour) == Approx(2.70012).margin(1e-5));
    CHECK(*speedFrom("2.70", SpeedUnit::MetresPerSecond) == Approx(2.7));
}

TEST_CASE("a speed is told as it would be typed", "[scene]")
{
    CHECK(speedText(2.7, SpeedUnit::MinutesPerKm) == "6:10");   // 370.4 s
    CHECK(speedText(2.7, SpeedUnit::MinutesPerMile) == "9:56"); // 596.05 s
    CHECK(speedText(2.7, SpeedUnit::KmPerHour) == "9.7");
    CHECK(speedText(2.7, SpeedUnit::MilesPerHour) == "6.0");
    CHECK(speedText(2.7, SpeedUnit::MetresPerSecond) == "2.70");
}

TEST_CASE("what is no running speed is refused with a sentence", "[scene]")
{
    const auto text = GENERATE("", "fast", "6:75", "-3", "0", "6:", ":30", "1e1", "6.1.2");
    const auto speed = speedFrom(text, SpeedUnit::MinutesPerKm);
    REQUIRE_FALSE(speed);
    CHECK(speed.error().sentence.find("min/km") != std::string::npos);
}

TEST_CASE("a pace typed in the field of another unit is noticed", "[scene]")
{
    // 6.1 min/km typed as metres a second would be a sprint of a lap in 65 s, which is possible;
    // 16 km/h typed as m/s is not.
    CHECK(speedFrom("6.1", SpeedUnit::MetresPerSecond));
    CHECK_FALSE(speedFrom("16", SpeedUnit::MetresPerSecond));
    CHECK_FALSE(speedFrom("0.3", SpeedUnit::MetresPerSecond));
}
