// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/plane_and_lens.json: four-point plane by the direct linear transform
// (NumPy 1.24.2), agreeing with OpenCV 4.6.0; Brown-Conrady lens of OpenCV's calib3d, inverted by a
// SciPy 1.10.1 solver.
#include "core/scene/plane.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using namespace latemile::testing;

namespace {

Scene rightwards()
{
    Scene scene;
    scene.view = View::RightSide;
    scene.travel = Travel::Right;
    return scene;
}

PixelPoint pixel(const nlohmann::json& p)
{
    return {p[0].get<double>(), p[1].get<double>()};
}

} // namespace

TEST_CASE("four corners map pixels to the plane as the direct linear transform does",
          "[scene][outside]")
{
    const auto data = referenceJson("plane_and_lens.json");
    for (const auto& given : data.at("plane_cases")) {
        INFO(given.at("id"));
        auto scene = rightwards();
        PlaneCorners corners;
        for (std::size_t i = 0; i < 4; ++i) {
            corners.image[i] = pixel(given.at("image_px")[i]);
            corners.cm[i] = {given.at("plane_cm")[i][0].get<double>(),
                             given.at("plane_cm")[i][1].get<double>()};
        }
        scene.plane = corners;
        const auto plane = Plane::from(scene).value();
        const auto& expect = given.at("expect");
        for (std::size_t i = 0; i < expect.at("test_image_px").size(); ++i) {
            const auto at = pixel(expect.at("test_image_px")[i]);
            const auto got = plane.toPlane(at);
            CHECK(got.x == Approx(expect.at("test_plane_cm")[i][0].get<double>()).margin(1e-6));
            CHECK(got.y == Approx(expect.at("test_plane_cm")[i][1].get<double>()).margin(1e-6));
            const auto back = plane.toPixel(got);
            CHECK(back.u == Approx(at.u).margin(1e-6));
            CHECK(back.v == Approx(at.v).margin(1e-6));
        }
    }
}

TEST_CASE("a lens bends pixels as calib3d documents it, both ways", "[scene][outside]")
{
    int checked = 0;
    const auto data = referenceJson("plane_and_lens.json");
    for (const auto& given : data.at("lens_cases")) {
        INFO(given.at("id"));
        auto scene = rightwards();
        const auto number = [&](const char* key) { return given.value(key, 0.0); };
        scene.lens =
            Lens{number("fx_px"), number("fy_px"), number("cx_px"), number("cy_px"), number("k1"),
                 number("k2"),    number("p1"),    number("p2"),    number("k3")};
        const auto plane = Plane::from(scene).value(); // without a scale: x right, y up, in pixels
        const auto& expect = given.at("expect");
        for (std::size_t i = 0; i < expect.at("ideal_px").size(); ++i) {
            const auto bent = pixel(expect.at("distorted_px")[i]);
            const auto straight = pixel(expect.at("ideal_px")[i]);
            const auto got = plane.toPlane(bent);
            CHECK(got.x == Approx(straight.u).margin(1e-4));
            CHECK(-got.y == Approx(straight.v).margin(1e-4));
            const auto back = plane.toPixel({straight.u, -straight.v});
            CHECK(back.u == Approx(bent.u).margin(1e-4));
            CHECK(back.v == Approx(bent.v).margin(1e-4));
            ++checked;
        }
    }
    CHECK(checked >= 4);
}
