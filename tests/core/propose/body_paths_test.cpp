// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/body_paths.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/modelled_bodies.hpp"

#include <utility>

using namespace latemile;
using namespace latemile::tests;

namespace {

void exchangeLegs(BodyPoints& body)
{
    for (const std::size_t left : {25U, 27U, 29U, 31U}) {
        std::swap(body.points[left], body.points[left + 1]);
    }
}

void checkNearLeg(const ModelledRunner& runner, const BodyPaths& paths)
{
    for (const auto landmark : {Landmark::Knee, Landmark::Ankle, Landmark::Toe}) {
        const auto& path = paths.paths.at({BodySide::Near, landmark});
        for (int k = 2; k < runner.frames - 2; ++k) {
            CAPTURE(k, nameOf(landmark));
            const auto truth = placeOf(runner, k, BodySide::Near, landmark);
            CHECK(path.at[static_cast<std::size_t>(k)].u == Approx(truth.u).margin(2.0));
            CHECK(path.at[static_cast<std::size_t>(k)].v == Approx(truth.v).margin(2.0));
        }
    }
}

Error errorOf(const std::vector<FoundBody>& found, std::optional<View> view)
{
    const auto paths = bodyPathsFrom(found, view, 1280, 720);
    REQUIRE(!paths);
    return paths.error();
}

} // namespace

TEST_CASE("the near leg is the one on the camera's side, told by which way the runner faces",
          "[propose]")
{
    const ModelledRunner runner{.facesRight = GENERATE(false, true)};
    const auto paths = bodyPathsFrom(runner.bodies(), std::nullopt, 1280, 720);
    REQUIRE(paths);
    CHECK(paths->view == (runner.facesRight ? View::RightSide : View::LeftSide));
    CHECK(paths->remarks.empty());
    CHECK(paths->trunkPx == 100.0);
    checkNearLeg(runner, *paths);
}

TEST_CASE("legs exchanged on single frames are put back", "[propose]")
{
    const ModelledRunner runner;
    auto found = runner.bodies();
    for (const std::size_t k : {9U, 10U, 21U, 30U}) {
        exchangeLegs(found[k].body);
    }
    const auto paths = bodyPathsFrom(found, View::LeftSide, 1280, 720);
    REQUIRE(paths);
    checkNearLeg(runner, *paths);
}

TEST_CASE("a clear point on a clear path is not doubted; a faint one, a jump and a bone are",
          "[propose]")
{
    const ModelledRunner runner;
    auto found = runner.bodies();
    const auto knee = *networkPoint(Landmark::Knee);
    const auto ear = *networkPoint(Landmark::Ear);
    found[8].body.points[ear].peak = 0.49;
    found[15].body.points[ear].at.u += 30; // 0.3 trunk lengths
    for (auto k = 24U; k < 36U; ++k) {
        found[k].body.points[knee].at.v += 45; // longer by half for a fifth of a second
    }
    const auto paths = bodyPathsFrom(found, View::LeftSide, 1280, 720);
    REQUIRE(paths);
    const auto& ears = paths->paths.at({BodySide::Near, Landmark::Ear}).doubt;
    CHECK(ears[7] == Doubt::None);
    CHECK(ears[8] == Doubt::Faint);
    CHECK(ears[15] == Doubt::Jumps);
    CHECK(ears[20] == Doubt::None);
    CHECK(paths->paths.at({BodySide::Near, Landmark::Knee}).doubt[30] == Doubt::OtherLength);
    CHECK(paths->paths.at({BodySide::Far, Landmark::Knee}).doubt[30] == Doubt::None);
}

TEST_CASE("feet at the edge of the picture are doubted and told of", "[propose]")
{
    const ModelledRunner runner;
    const auto paths = bodyPathsFrom(runner.bodies(), View::LeftSide, 1280, 470);
    REQUIRE(paths);
    const auto& toes = paths->paths.at({BodySide::Near, Landmark::Toe});
    for (std::size_t k = 0; k < toes.at.size(); ++k) {
        CAPTURE(k, toes.at[k].v);
        CHECK((toes.doubt[k] == Doubt::AtEdge) == (toes.at[k].v > 470 - 0.02 * 1280));
    }
    REQUIRE(paths->remarks.size() == 1);
    CHECK_THAT(paths->remarks.front(), containing("edge of the picture"));
}

TEST_CASE("frames far apart leave the legs unsure and the rest as it is", "[propose]")
{
    auto found = ModelledRunner{.facesRight = false, .frames = 60}.bodies();
    const std::vector<FoundBody> apart{found[0], found[15], found[30], found[45]}; // 0.25 s apart
    const auto paths = bodyPathsFrom(apart, View::LeftSide, 1280, 720);
    REQUIRE(paths);
    CHECK(paths->paths.at({BodySide::Near, Landmark::Ankle}).doubt[1] == Doubt::LegUnsure);
    CHECK(paths->paths.at({BodySide::Near, Landmark::Hip}).doubt[1] == Doubt::None);
    REQUIRE(paths->remarks.size() == 1);
    CHECK_THAT(paths->remarks.front(), containing("near and far leg may be exchanged"));
}

TEST_CASE("frames without anybody have no proposals and are counted", "[propose]")
{
    auto found = ModelledRunner().bodies();
    found[3].body.presence = 0.2;
    const auto paths = bodyPathsFrom(found, View::LeftSide, 1280, 720);
    REQUIRE(paths);
    CHECK(paths->frames.size() == found.size() - 1);
    CHECK(paths->frames[3] == FrameNumber{4});
    REQUIRE(paths->remarks.size() == 1);
    CHECK_THAT(paths->remarks.front(), containing("On 1 of 40 frames no runner"));
}

TEST_CASE("what cannot be proposed from is refused in one sentence", "[propose]")
{
    auto found = ModelledRunner().bodies();
    SECTION("nobody on any frame")
    {
        for (auto& one : found) {
            one.body.presence = 0.1;
        }
        CHECK_THAT(errorOf(found, View::LeftSide).sentence, containing("draw a box"));
    }
    SECTION("somebody for less than a step, and nobody before and after")
    {
        for (std::size_t k = 0; k < found.size(); ++k) {
            found[k].body.presence = k >= 10 && k < 20 ? 1.0 : 0.1; // 0.15 s
        }
        const auto error = errorOf(found, View::LeftSide);
        CHECK(error.kind == Error::Kind::NotFound); // she may come on frames not looked at yet
        CHECK_THAT(error.sentence, containing("less than one step"));
    }
    SECTION("a runner upside down")
    {
        for (auto& one : found) {
            for (auto& point : one.body.points) {
                point.at.v = 720 - point.at.v;
            }
        }
        CHECK_THAT(errorOf(found, View::LeftSide).sentence, containing("upside down"));
    }
    SECTION("a side that contradicts the picture")
    {
        const auto error = errorOf(found, View::RightSide);
        CHECK(error.kind == Error::Kind::Inconsistent);
        CHECK_THAT(error.sentence, containing("faces left"));
    }
    SECTION("a view from behind")
    {
        const auto error = errorOf(found, View::Rear);
        CHECK(error.kind == Error::Kind::Unsupported);
        CHECK_THAT(error.sentence, containing("by hand"));
    }
}
