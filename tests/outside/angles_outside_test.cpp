// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/angles.json: segment and joint angles of picked points, computed by
// NumPy 1.24.2 in two ways (atan2; dot products and complex arguments); the right-triangle cases
// are exact plane geometry.
#include "core/measures/angles.hpp"
#include "core/scene/plane.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using namespace latemile::testing;

namespace {

/// The case's own plane: its plumb direction, travel and scale.
Plane planeOf(const nlohmann::json& given)
{
    Scene scene;
    const bool right = given.at("travel") == "right";
    scene.view = right ? View::RightSide : View::LeftSide;
    scene.travel = right ? Travel::Right : Travel::Left;
    scene.scale =
        ScaleLine{{0.0, 0.0}, {1000.0, 0.0}, 1000.0 * given.at("cm_per_px").get<double>()};
    const double u = given.at("up_in_picture")[0].get<double>();
    const double v = given.at("up_in_picture")[1].get<double>();
    scene.plumb = PlumbLine{{500.0 + 400.0 * u, 500.0 + 400.0 * v}, {500.0, 500.0}};
    return Plane::from(scene).value();
}

} // namespace

TEST_CASE("angles and offsets agree with NumPy for every picked figure", "[measures][outside]")
{
    int checked = 0;
    const auto data = referenceJson("angles.json");
    for (const auto& given : data.at("cases")) {
        INFO(given.at("id"));
        const auto plane = planeOf(given);
        const auto at = [&](const char* landmark) {
            const auto& p = given.at("points_px").at(landmark);
            return plane.toPlane({p[0].get<double>(), p[1].get<double>()});
        };
        const auto& expect = given.at("expect");
        const auto check = [&](const char* name, auto value) {
            if (expect.contains(name)) {
                INFO(name);
                CHECK(value() == Approx(expect.at(name).get<double>()).margin(1e-6));
                ++checked;
            }
        };
        check("trunk_from_vertical_forward_positive_deg",
              [&] { return leanDegrees(at("hip"), at("shoulder")); });
        check("thigh_from_vertical_knee_ahead_positive_deg",
              [&] { return thighDegrees(at("hip"), at("knee")); });
        check("shank_from_vertical_ankle_ahead_positive_deg",
              [&] { return shankDegrees(at("knee"), at("ankle")); });
        check("knee_flexion_deg",
              [&] { return kneeFlexionDegrees(at("hip"), at("knee"), at("ankle")); });
        check("knee_inner_angle_deg",
              [&] { return innerAngleDegrees(at("hip"), at("knee"), at("ankle")); });
        check("elbow_inner_angle_deg",
              [&] { return innerAngleDegrees(at("shoulder"), at("elbow"), at("wrist")); });
        check("ankle_ahead_of_hip_cm", [&] { return at("ankle").x - at("hip").x; });
        check("ear_ahead_of_shoulder_cm", [&] { return at("ear").x - at("shoulder").x; });
        check("ear_above_shoulder_cm", [&] { return at("ear").y - at("shoulder").y; });
        check("ear_shoulder_from_vertical_deg",
              [&] { return leanDegrees(at("shoulder"), at("ear")); });
        check("foot_from_horizontal_toe_up_positive_deg",
              [&] { return footDegrees(at("heel"), at("toe")); });
    }
    CHECK(checked >= 30);
}
