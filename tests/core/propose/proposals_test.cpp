// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/proposals.hpp"
#include "core/propose/row_bound.hpp"
#include "core/propose/systematic_error.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/modelled_bodies.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::tests;

namespace {

BodyPaths pathsOf(const ModelledRunner& runner)
{
    auto paths = bodyPathsFrom(runner.bodies(), std::nullopt, 1280, 720);
    REQUIRE(paths);
    return *paths;
}

/// Near heels the coach puts `down` pixels below the path, on these frames.
std::map<MarkKey, Mark> placedHeels(const BodyPaths& paths, const std::vector<int>& frames,
                                    double down, Origin origin = Origin::Placed)
{
    const auto& heels = paths.paths.at({BodySide::Near, Landmark::Heel}).at;
    std::map<MarkKey, Mark> marks;
    for (const int frame : frames) {
        const auto at = heels[static_cast<std::size_t>(frame)];
        marks[{{frame}, BodySide::Near, Landmark::Heel}] = {{at.u, at.v + down}, origin, 1.0};
    }
    return marks;
}

double heelOff(const BodyPaths& paths, const Proposals& proposals, int frame)
{
    return proposals.at({{frame}, BodySide::Near, Landmark::Heel}).at.v -
           paths.paths.at({BodySide::Near, Landmark::Heel}).at[static_cast<std::size_t>(frame)].v;
}

} // namespace

TEST_CASE("every landmark of both sides is proposed on every frame, with an error", "[propose]")
{
    const auto paths = pathsOf({});
    const auto proposals = proposalsFrom(paths, {});
    CHECK(proposals.size() == 40 * 2 * 9);
    for (const auto& [key, proposal] : proposals) {
        CHECK(proposal.sePx > 0.5);
        CHECK(proposal.sePx < 10.0);
    }
    const auto marks = marksOf(proposals);
    CHECK(marks.size() == proposals.size());
    CHECK(marks.begin()->second.origin == Origin::Proposed);
    CHECK(marks.begin()->second.sePx == proposals.begin()->second.sePx);
}

TEST_CASE("a mirrored runner has mirrored proposals", "[propose]")
{
    const auto left = proposalsFrom(pathsOf({.facesRight = false}), {});
    const auto right = proposalsFrom(pathsOf({.facesRight = true}), {});
    for (const auto& [key, proposal] : left) {
        const auto& other = right.at(key);
        CHECK(other.at.u == Approx(800 - proposal.at.u).margin(1e-6));
        CHECK(other.at.v == Approx(proposal.at.v).margin(1e-6));
        CHECK(other.sePx == Approx(proposal.sePx));
    }
}

TEST_CASE("before there are marks the heel is proposed behind and below where the network sees it",
          "[propose]")
{
    // The network's heel lies inside the shoe, ours is its back lower corner.
    const auto paths = pathsOf({});
    const auto proposals = proposalsFrom(paths, {});
    CHECK(heelOff(paths, proposals, 5) > 0);
    const auto& near = paths.paths.at({BodySide::Near, Landmark::Heel}).at[5];
    CHECK(proposals.at({{5}, BodySide::Near, Landmark::Heel}).at.u > near.u); // faces left
}

TEST_CASE("what placed marks differ by is learned and its error shrinks", "[propose]")
{
    const auto paths = pathsOf({});
    const double before = proposalsFrom(paths, {}).at({{20}, BodySide::Near, Landmark::Heel}).sePx;
    // A shoe with a thick sole: 9 px down everywhere, marked on the instants of a stride.
    const auto marks = placedHeels(paths, {2, 12, 22, 32}, 9.0);
    const auto proposals = proposalsFrom(paths, marks);
    for (const int frame : {5, 10, 17, 27, 35}) {
        CAPTURE(frame);
        CHECK(heelOff(paths, proposals, frame) == Approx(9.0).margin(1.5));
    }
    CHECK(proposals.at({{20}, BodySide::Near, Landmark::Heel}).sePx < 0.8 * before);
    SECTION("and a frame the coach has marked is left to the coach")
    {
        CHECK(!proposals.contains({{12}, BodySide::Near, Landmark::Heel}));
        CHECK(proposals.contains({{12}, BodySide::Near, Landmark::Toe}));
        CHECK(proposals.contains({{12}, BodySide::Far, Landmark::Heel}));
    }
}

TEST_CASE("marks that are proposals themselves teach nothing", "[propose]")
{
    const auto paths = pathsOf({});
    const auto untaught = proposalsFrom(paths, {});
    CHECK(proposalsFrom(paths, placedHeels(paths, {2, 12}, 9.0, Origin::Proposed)) == untaught);
    CHECK(proposalsFrom(paths, placedHeels(paths, {2, 12}, 9.0, Origin::Followed)) == untaught);
}

TEST_CASE("nothing is learned where the path is in doubt", "[propose]")
{
    auto paths = pathsOf({});
    const auto marks = placedHeels(paths, {12}, 40.0);
    paths.paths.at({BodySide::Near, Landmark::Heel}).doubt[12] = Doubt::Jumps;
    const auto proposals = proposalsFrom(paths, marks);
    CHECK(proposals.at({{20}, BodySide::Near, Landmark::Heel}) ==
          proposalsFrom(paths, {}).at({{20}, BodySide::Near, Landmark::Heel}));
}

TEST_CASE("a doubtful proposal says so and has a wide error", "[propose]")
{
    auto paths = pathsOf({});
    paths.paths.at({BodySide::Near, Landmark::Toe}).doubt[7] = Doubt::Jumps;
    const auto toe = proposalsFrom(paths, {}).at({{7}, BodySide::Near, Landmark::Toe});
    CHECK(toe.doubt == Doubt::Jumps);
    CHECK(toe.sePx >= 0.2 * paths.trunkPx);
}

TEST_CASE("the fainter a point is seen the larger is its error", "[propose]")
{
    CHECK(frameNoise(Landmark::Ankle, 0.95) == frameNoise(Landmark::Ankle, 1.0));
    CHECK(frameNoise(Landmark::Ankle, 0.72) ==
          Approx(std::exp(1.0) * frameNoise(Landmark::Ankle, 0.92))); // 0.2 fainter: e times
}

TEST_CASE("a proposal that states no error is as unsure as three centimetres of a trunk of fifty",
          "[propose]")
{
    const Mark unstated{{100, 100}, Origin::Proposed, std::nullopt};
    CHECK(proposalError(unstated, 200.0) == Approx(12.0));
    CHECK(proposalError(unstated, 200.0) >
          200.0 * rowBoundInTrunks(Landmark::Hip, ClickErrors{})); // never accepted unseen
    CHECK(proposalError({{100, 100}, Origin::Proposed, 4.0}, 200.0) == 4.0);
}
