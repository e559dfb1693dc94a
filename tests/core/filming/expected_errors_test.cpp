// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/expected_errors.hpp"

#include "core/filming/camera_set_up.hpp"
#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

/// A pixel is 0.3125 cm, the pole of 1 m is 320 px.
Scene sceneAt(double rate)
{
    CameraSetUp setUp;
    setUp.fieldBy = FieldBy::WidthAtRunner;
    setUp.field = 400.0;
    setUp.width = 1280;
    setUp.height = 720;
    setUp.captureRate = rate;
    setUp.exposure = 1e-5;
    return sceneOf(setUp, pictureGeometry(setUp).value());
}

} // namespace

TEST_CASE("a contact time is uncertain by two events", "[filming]")
{
    // By hand: an event T/sqrt(12) (JCGM 100:2008, 4.3.7) and T/2, together T/sqrt(3); two of them
    // T sqrt(2/3): 3.40 ms at 240/s, 6.80 at 120/s, 13.61 at 60/s.
    const auto [rate, ms] =
        GENERATE(table<double, double>({{240.0, 3.402}, {120.0, 6.804}, {60.0, 13.608}}));
    CHECK(1000.0 * contactTimeError(rate) == Approx(ms).margin(0.001));
    CHECK(errorOf(expectedErrors(sceneAt(rate), rate), "contact_time").value() ==
          Approx(ms).margin(0.005));
}

TEST_CASE("angles and offsets are uncertain by marks, plumb and scale", "[filming]")
{
    // At 4000 frames/s time has no part. Trunk lean: shoulder 0.8 and hip 1.2 cm over a trunk of
    // hypot(6.8, 49.6) = 50.06 cm is 1.651 degrees; plumb sqrt(2)/320 is 0.253 degrees: 1.670.
    // Foot ahead: hip 1.2 and ankle 0.5 cm are 1.3; scale of 26 cm sqrt(0.005^2 + 2/320^2) 0.174;
    // plumb 78 cm sqrt(2)/320 0.345: 1.356 cm.
    const auto errors = expectedErrors(sceneAt(4000), 4000);
    CHECK(errorOf(errors, "trunk_lean").value() == Approx(1.670).margin(0.01));
    CHECK(errorOf(errors, "foot_ahead").value() == Approx(1.356).margin(0.02));
}

TEST_CASE("the side filmed and the way the picture is tilted change no error", "[filming]")
{
    const auto scene = sceneAt(240);
    auto mirrored = scene;
    mirrored.view = View::RightSide;
    mirrored.travel = Travel::Right;
    const auto left = expectedErrors(scene, 240);
    const auto right = expectedErrors(mirrored, 240);
    REQUIRE(left.size() == right.size());
    REQUIRE(left.size() == 7);
    for (std::size_t i = 0; i < left.size(); ++i) {
        CHECK(left[i].se == Approx(right[i].se).epsilon(0.001));
    }
}

TEST_CASE("without a scale angles and times remain, and as good", "[filming]")
{
    auto scene = sceneAt(240);
    const auto with = expectedErrors(scene, 240);
    scene.scale.reset();
    const auto without = expectedErrors(scene, 240, 0.3125);
    CHECK_FALSE(errorOf(without, "foot_ahead"));
    CHECK(errorOf(without, "trunk_lean").value() ==
          Approx(errorOf(with, "trunk_lean").value()).epsilon(0.1));
    CHECK(errorOf(without, "contact_time").value() ==
          Approx(errorOf(with, "contact_time").value()));
}

TEST_CASE("what cannot be read is left out", "[filming]")
{
    CHECK_FALSE(errorOf(expectedErrors(sceneAt(30), 30), "contact_time"));
    auto rear = sceneAt(240);
    rear.view = View::Rear;
    CHECK(expectedErrors(rear, 240).empty());
    auto contradictory = sceneAt(240);
    contradictory.travel = Travel::Right;
    CHECK(expectedErrors(contradictory, 240).empty());
}
