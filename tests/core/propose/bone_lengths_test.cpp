// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/bone_lengths.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/modelled_bodies.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::tests;

namespace {

BodyPaths pathsOf(const ModelledRunner& runner)
{
    BodyPaths paths;
    paths.view = View::LeftSide;
    paths.trunkPx = 100.0;
    for (int k = 0; k < runner.frames; ++k) {
        paths.frames.push_back({k});
        paths.times.push_back(Seconds(k / 60.0));
        for (const auto side : {BodySide::Near, BodySide::Far}) {
            for (const auto landmark : sideViewLandmarks) {
                auto& path = paths.paths[{side, landmark}];
                path.at.push_back(placeOf(runner, k, side, landmark));
                path.peak.push_back(0.95);
                path.doubt.push_back(Doubt::None);
            }
        }
    }
    return paths;
}

double distance(PixelPoint a, PixelPoint b)
{
    return std::hypot(a.u - b.u, a.v - b.v);
}

constexpr BodyPart ankle{BodySide::Near, Landmark::Ankle};
constexpr std::size_t frame = 20;

} // namespace

TEST_CASE("legs whose bones keep their lengths stay where they are", "[propose]")
{
    const auto before = pathsOf(ModelledRunner{});
    auto paths = before;
    holdBoneLengths(paths);
    for (const auto& [part, path] : paths.paths) {
        for (std::size_t k = 0; k < path.at.size(); ++k) {
            CAPTURE(nameOf(part.landmark), k);
            CHECK(distance(path.at[k], before.paths.at(part).at[k]) < 0.5);
        }
    }
}

TEST_CASE("a faint point that stretches its bone is led back by the sharp ones round it",
          "[propose]")
{
    const auto truth = pathsOf(ModelledRunner{});
    const auto at = truth.paths.at(ankle).at[frame];
    const auto knee = truth.paths.at({BodySide::Near, Landmark::Knee}).at[frame];
    const double shank = distance(at, knee);
    const PixelPoint longer{at.u + 20 * (at.u - knee.u) / shank,
                            at.v + 20 * (at.v - knee.v) / shank}; // 0.2 trunk lengths
    auto faint = truth;
    faint.paths.at(ankle).at[frame] = longer;
    faint.paths.at(ankle).peak[frame] = 0.3;
    holdBoneLengths(faint);
    CHECK(distance(faint.paths.at(ankle).at[frame], at) < 5.0);
    CHECK(distance(faint.paths.at({BodySide::Near, Landmark::Knee}).at[frame], knee) < 1.0);

    // The same where it is sharply seen: knee and heel are as likely to be wrong.
    auto sharp = truth;
    sharp.paths.at(ankle).at[frame] = longer;
    holdBoneLengths(sharp);
    CHECK(distance(sharp.paths.at(ankle).at[frame], at) > 5.0);
}

TEST_CASE("one frame alone has the lengths it has", "[propose]")
{
    auto paths = pathsOf(ModelledRunner{.facesRight = false, .frames = 1});
    const auto before = paths;
    holdBoneLengths(paths);
    CHECK(distance(paths.paths.at(ankle).at[0], before.paths.at(ankle).at[0]) < 1e-9);
}
