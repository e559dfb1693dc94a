// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/plane.hpp"

#include "tests/catch.hpp"

#include <cmath>

using namespace latemile;

namespace {

Scene goingLeft()
{
    Scene scene;
    scene.view = View::LeftSide;
    scene.travel = Travel::Left;
    scene.scale = ScaleLine{{100, 800}, {600, 800}, 200.0};
    scene.plumb = PlumbLine{{50, 100}, {50, 900}};
    return scene;
}

} // namespace

TEST_CASE("forward is the direction of travel and up is along plumb", "[scene]")
{
    const auto plane = Plane::from(goingLeft()).value();
    const auto a = plane.toPlane({500, 500});
    const auto b = plane.toPlane({400, 400});
    CHECK(b.x - a.x == Approx(40.0)); // 100 px at 0.4 cm a pixel, to the left
    CHECK(b.y - a.y == Approx(40.0));
}

TEST_CASE("a plumb line takes the roll of the camera out", "[scene]")
{
    auto scene = goingLeft();
    const double roll = 2.0 * M_PI / 180.0;
    scene.plumb = PlumbLine{{500 + 400 * std::sin(roll), 500 - 400 * std::cos(roll)}, {500, 500}};
    const auto plane = Plane::from(scene).value();
    const auto foot = plane.toPlane({500, 500});
    const auto head = plane.toPlane({500 + 200 * std::sin(roll), 500 - 200 * std::cos(roll)});
    CHECK(head.x - foot.x == Approx(0.0).margin(1e-9));
    CHECK(head.y - foot.y == Approx(80.0));
}

TEST_CASE("pixel to plane and back is the same pixel, with lens, corners and plumb together",
          "[scene]")
{
    auto scene = goingLeft();
    scene.lens = Lens{1480, 1480, 960, 540, -0.12, 0.03, 0.001, -0.0005, 0.0};
    scene.plane = PlaneCorners{{PixelPoint{412, 903}, {1498, 861}, {1466, 297}, {436, 251}},
                               {{{0, 0}, {200, 0}, {200, 120}, {0, 120}}}};
    const auto plane = Plane::from(scene).value();
    for (const PixelPoint at :
         {PixelPoint{960, 600}, PixelPoint{700.5, 300.25}, PixelPoint{1400, 880}}) {
        const auto back = plane.toPixel(plane.toPlane(at));
        CHECK(back.u == Approx(at.u).margin(1e-4));
        CHECK(back.v == Approx(at.v).margin(1e-4));
    }
}

TEST_CASE("a scale taken from elsewhere keeps the way back", "[scene]")
{
    auto scene = goingLeft();
    scene.scale.reset();
    const auto plane = Plane::from(scene).value().withScale(0.35, 0.03, ScaleFrom::LegLength);
    CHECK(plane.hasScale());
    CHECK(plane.cmPerPixel({500, 500}) == Approx(0.35));
    const auto back = plane.toPixel(plane.toPlane({321.5, 654.5}));
    CHECK(back.u == Approx(321.5));
    CHECK(back.v == Approx(654.5));
}

TEST_CASE("a roll of one degree shifts a foot 88 cm below the hip by 1.5 cm", "[scene][outside]")
{
    // 88 cm x sin 1 degree = 1.536 cm, arithmetic by hand.
    const auto plane = Plane::from(goingLeft()).value();
    const SceneShift shift{.relativeScale = 0.0, .rollRadians = M_PI / 180.0};
    const PixelPoint hip{500, 500};
    const PixelPoint foot{500, 720}; // 88 cm lower
    const double moved = plane.toPlane(foot, shift).x - plane.toPlane(hip, shift).x;
    CHECK(std::abs(moved) == Approx(1.536).margin(1e-3));
}

TEST_CASE("a scene that fixes no plane is refused with the field at fault", "[scene][bad-input]")
{
    auto scene = goingLeft();
    SECTION("a scale line of no length")
    {
        scene.scale->b = scene.scale->a;
        CHECK_THAT(Plane::from(scene).error().sentence, containing("'scale'"));
    }
    SECTION("an upright scale line and no plumb line")
    {
        scene.scale = ScaleLine{{300, 200}, {302, 800}, 200.0};
        scene.plumb.reset();
        CHECK_THAT(Plane::from(scene).error().sentence, containing("'plumb'"));
    }
    SECTION("a plumb line of no length")
    {
        scene.plumb->top = scene.plumb->bottom;
        CHECK_THAT(Plane::from(scene).error().sentence, containing("'plumb'"));
    }
    SECTION("corners on one line")
    {
        scene.plane = PlaneCorners{{PixelPoint{0, 0}, {100, 0}, {200, 0}, {100, 300}},
                                   {{{0, 0}, {100, 0}, {200, 0}, {100, 300}}}};
        CHECK_THAT(Plane::from(scene).error().sentence, containing("'plane'"));
    }
    SECTION("a left side filmed of somebody who runs to the right")
    {
        scene.travel = Travel::Right;
        CHECK_THAT(Plane::from(scene).error().sentence, containing("mirrored"));
    }
}
