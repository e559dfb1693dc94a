// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/scale_lines.hpp"

#include "core/scene/plane.hpp"
#include "tests/catch.hpp"

#include <nlohmann/json.hpp>

#include <array>

using namespace latemile;

namespace {

Scene withLines(std::vector<ScaleLine> lines)
{
    Scene scene;
    scene.plumb = PlumbLine{{50, 100}, {50, 900}};
    return withScaleLines(scene, std::move(lines));
}

} // namespace

TEST_CASE("two scale lines are averaged by their errors", "[scene]")
{
    // By hand: 100 cm over 250 px is 0.4 with sqrt((0.5/100)^2 + 2/250^2) = 0.755 %; 200 cm over
    // 505 px is 0.39604 with 0.375 %. Weights 1/(k r)^2; mean 0.396812, 0.3361 % from the weights;
    // Birge's ratio sqrt(1.3843) = 1.1766 widens it to 0.3955 %.
    const std::array lines{DrawnLength{100, 250}, DrawnLength{200, 505}};
    CHECK(relativeLineError(lines[0]) == Approx(0.00755).margin(1e-5));
    CHECK(relativeLineError(lines[1]) == Approx(0.003754).margin(1e-6));
    const auto mean = meanScale(lines);
    CHECK(mean.cmPerPixel == Approx(0.396812).margin(2e-6));
    CHECK(mean.disagreement == Approx(1.17657).margin(1e-5));
    CHECK(mean.relativeError == Approx(0.0039549).margin(1e-7));
}

TEST_CASE("n equal lines are as good as one by the root of n", "[scene]")
{
    // The standard error of a mean of n independent values (JCGM 100:2008, 4.2.3).
    const std::vector<DrawnLength> four(4, DrawnLength{100, 250});
    const auto mean = meanScale(four);
    CHECK(mean.cmPerPixel == Approx(0.4));
    CHECK(mean.relativeError == Approx(relativeLineError(four.front()) / 2.0));
    CHECK(mean.disagreement == Approx(0.0).margin(1e-9));
}

TEST_CASE("the plane takes the mean of the lines, and one line as ever", "[scene]")
{
    const ScaleLine metre{{100, 500}, {350, 500}, 100};
    const ScaleLine twoMetres{{100, 800}, {605, 800}, 200};
    const auto one = Plane::from(withLines({metre})).value();
    CHECK(one.cmPerPixel({500, 500}) == Approx(0.4));
    CHECK(one.relativeScaleError() == Approx(0.00755).margin(1e-5));
    const auto both = Plane::from(withLines({metre, twoMetres})).value();
    CHECK(both.cmPerPixel({500, 500}) == Approx(0.396812).margin(2e-6));
    CHECK(both.relativeScaleError() == Approx(0.0039549).margin(1e-7));
}

TEST_CASE("every scale line is checked, not the first alone", "[scene]")
{
    const ScaleLine good{{100, 500}, {350, 500}, 100};
    CHECK_FALSE(Plane::from(withLines({good, {{10, 10}, {10.5, 10}, 100}})));
    CHECK_FALSE(Plane::from(withLines({good, {{100, 100}, {300, 100}, 0}})));
}

TEST_CASE("further scale lines are written, read back and refused without a first", "[scene]")
{
    auto scene = withLines({{{100, 500}, {350, 500}, 100}, {{100, 800}, {605, 800}, 200}});
    auto document = toJson(scene);
    const auto read = sceneFrom(document, "SCENE.json");
    REQUIRE(read);
    CHECK(*read == scene);
    document["scale"] = nullptr;
    const auto refused = sceneFrom(document, "SCENE.json");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().sentence.find("/more_scales") != std::string::npos);
    scene.moreScales.clear();
    CHECK_FALSE(toJson(scene).contains("more_scales"));
}
