// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/camera_set_up.hpp"

#include "core/filming/set_up_advice.hpp"
#include "core/scene/plane.hpp"
#include "tests/catch.hpp"

#include <cmath>
#include <limits>

using namespace latemile;

namespace {

/// 1280 x 720 that show 4 m at 4 m: a pixel is 400 / 1280 = 0.3125 cm.
CameraSetUp fourMetres()
{
    CameraSetUp setUp;
    setUp.fieldBy = FieldBy::WidthAtRunner;
    setUp.field = 400.0;
    setUp.width = 1280;
    setUp.height = 720;
    setUp.exposure = 1.0 / 500.0;
    return setUp;
}

const Remark& remarkAbout(const std::vector<Remark>& remarks, std::string_view about)
{
    for (const auto& remark : remarks) {
        if (remark.about == about) {
            return remark;
        }
    }
    FAIL("no remark about " << about);
    throw 0;
}

} // namespace

TEST_CASE("angles of view are those published for a full frame", "[filming][outside]")
{
    // Angle of view of a rectilinear lens on 36 mm x 24 mm, across and up, as lens makers and
    // Wikipedia ("Angle of view", table of common lens angles) print it to a tenth of a degree.
    const auto [focal, across, up] = GENERATE(table<double, double, double>({{24, 73.7, 53.1},
                                                                             {28, 65.5, 46.4},
                                                                             {35, 54.4, 37.8},
                                                                             {50, 39.6, 27.0},
                                                                             {85, 23.9, 16.1}}));
    CameraSetUp setUp;
    setUp.width = 3000;
    setUp.height = 2000;
    setUp.field = focal;
    const auto geometry = pictureGeometry(setUp).value();
    CHECK(geometry.acrossDegrees == Approx(across).margin(0.051));
    const double upDegrees =
        2.0 * std::atan(geometry.heightCm / (2.0 * setUp.distanceCm)) * 180.0 / M_PI;
    CHECK(upDegrees == Approx(up).margin(0.051));
}

TEST_CASE("an equivalent focal length goes by the diagonal", "[filming][outside]")
{
    // CIPA DCG-001: the diagonal of 36 mm x 24 mm is 43.27 mm. 16:9 at 26 mm: across
    // 2 atan(43.27 * 16 / sqrt(16^2 + 9^2) / (2 * 26)) = 71.9 degrees, by hand.
    CameraSetUp setUp;
    setUp.field = 26.0;
    const double hand = 2.0 * std::atan(43.2666 * 16.0 / std::sqrt(337.0) / 52.0) * 180.0 / M_PI;
    CHECK(pictureGeometry(setUp).value().acrossDegrees == Approx(hand).margin(0.01));
}

TEST_CASE("a field of 90 degrees is twice as wide as it is far", "[filming]")
{
    CameraSetUp setUp;
    setUp.fieldBy = FieldBy::Degrees;
    setUp.field = 90.0;
    setUp.distanceCm = 300.0;
    CHECK(pictureGeometry(setUp).value().widthCm == Approx(600.0));
}

TEST_CASE("a pixel, the picture and its smear are those of arithmetic by hand", "[filming]")
{
    const auto geometry = pictureGeometry(fourMetres()).value();
    CHECK(geometry.focalPx == Approx(1280.0));
    CHECK(geometry.cmPerPixel == Approx(0.3125));
    CHECK(geometry.heightCm == Approx(225.0));
    CHECK(geometry.frameMs == Approx(1000.0 / 240.0));
    CHECK(geometry.standingFootBlurCm == Approx(0.6)); // 3 m/s for 2 ms
    CHECK(geometry.swingingFootBlurCm == Approx(1.2));
    CHECK(geometry.trunkBlurCm == Approx(0.14)); // 0.7 m/s for 2 ms
    CHECK(geometry.nearerPercent == Approx(100.0 * 10.0 / 390.0));
    auto ground = fourMetres();
    ground.onBelt = false;
    const auto passing = pictureGeometry(ground).value();
    CHECK(passing.standingFootBlurCm == 0.0);
    CHECK(passing.swingingFootBlurCm == Approx(1.8));
    CHECK(passing.trunkBlurCm == Approx(std::hypot(0.14, 0.6)));
}

TEST_CASE("the scene of a set-up has the set-up's scale", "[filming]")
{
    const auto setUp = fourMetres();
    const auto plane = Plane::from(sceneOf(setUp, pictureGeometry(setUp).value())).value();
    CHECK(plane.cmPerPixel({640, 360}) == Approx(0.3125));
}

TEST_CASE("what no camera can be is refused in one sentence that names it", "[filming]")
{
    struct Case {
        const char* name;
        void (*spoil)(CameraSetUp&);
        const char* word;
    };
    const auto wrong = GENERATE(
        Case{"no distance", [](CameraSetUp& s) { s.distanceCm = 0; }, "distance"},
        Case{"no number",
             [](CameraSetUp& s) { s.distanceCm = std::numeric_limits<double>::quiet_NaN(); },
             "distance"},
        Case{"width", [](CameraSetUp& s) { s.field = -4; }, "width seen"},
        Case{"degrees",
             [](CameraSetUp& s) {
                 s.fieldBy = FieldBy::Degrees;
                 s.field = 180;
             },
             "field of view"},
        Case{"focal",
             [](CameraSetUp& s) {
                 s.fieldBy = FieldBy::EquivalentFocal;
                 s.field = 0;
             },
             "focal length"},
        Case{"pixels", [](CameraSetUp& s) { s.width = 0; }, "pixels"},
        Case{"rate", [](CameraSetUp& s) { s.captureRate = 0; }, "frame rate"},
        Case{"shutter", [](CameraSetUp& s) { s.exposure = 1.0 / 100.0; }, "shutter"},
        Case{"no shutter", [](CameraSetUp& s) { s.exposure = 0.0; }, "shutter"},
        Case{"speed", [](CameraSetUp& s) { s.speed = 30; }, "speed"},
        Case{"pole", [](CameraSetUp& s) { s.poleCm = 0; }, "pole"},
        Case{"stature", [](CameraSetUp& s) { s.statureCm = 1.7; }, "height"});
    INFO(wrong.name);
    auto setUp = fourMetres();
    wrong.spoil(setUp);
    const auto refused = pictureGeometry(setUp);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().sentence.find(wrong.word) != std::string::npos);
    CHECK(refused.error().sentence.back() == '.');
}

TEST_CASE("advice says what to change, with numbers", "[filming]")
{
    auto setUp = fourMetres();
    auto remarks = adviceOn(setUp, pictureGeometry(setUp).value());
    CHECK(remarkAbout(remarks, "height").state == Check::State::Good);
    // 0.6 cm over the 0.5 an ankle is marked to: at 3 m/s 1/1000 s smears 0.3 cm.
    CHECK(remarkAbout(remarks, "shutter").state == Check::State::Doubt);
    CHECK(remarkAbout(remarks, "shutter").sentence.find("1/1000") != std::string::npos);
    setUp.statureCm = 205.0;
    remarks = adviceOn(setUp, pictureGeometry(setUp).value());
    CHECK(remarkAbout(remarks, "height").state == Check::State::Bad);
    // 205 + 30 cm over 225 cm, from 4 m: 4.18 m.
    CHECK(remarkAbout(remarks, "height").sentence.find("4.2 m") != std::string::npos);
    setUp.captureRate = 60.0;
    remarks = adviceOn(setUp, pictureGeometry(setUp).value());
    CHECK(remarkAbout(remarks, "rate").state == Check::State::Doubt);
    // sqrt(2) sqrt(1/12 + 1/4) / 60 s = 13.6 ms; at 240/s 3.4 ms.
    CHECK(remarkAbout(remarks, "rate").sentence.find("± 14 ms") != std::string::npos);
    CHECK(remarkAbout(remarks, "rate").sentence.find("± 3 ms") != std::string::npos);
}

TEST_CASE("the lens stands at hip height", "[filming][outside]")
{
    // Drillis & Contini 1966: the hip is at 0.530 of stature.
    CHECK(lensHeightCm(170.0, std::nullopt) == Approx(90.1));
    CHECK(lensHeightCm(170.0, 88.0) == 88.0);
}
