// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/joined_proposals.hpp"

#include "core/propose/bone_lengths.hpp"
#include "tests/catch.hpp"
#include "tests/core/follow/followed_clip.hpp"
#include "tests/core/propose/modelled_bodies.hpp"

#include <algorithm>
#include <cmath>
#include <random>

using namespace latemile;
using namespace latemile::tests;

namespace {

constexpr BodyPart toe{BodySide::Near, Landmark::Toe};

MarkKey toeOn(int frame)
{
    return {{frame}, toe.side, toe.landmark};
}

BodyPaths threeStrides()
{
    return bodyPathsFrom(ModelledRunner{.frames = 120}.bodies(), std::nullopt, 1280, 720).value();
}

/// Where the toe truly is: the network errs by up to 8 pixels, alike in every stride.
PixelPoint trueToe(const BodyPaths& paths, int frame)
{
    const auto at = paths.paths.at(toe).at[static_cast<std::size_t>(frame)];
    return {at.u + 8.0 * std::sin(2.0 * 3.14159265 * frame / 40.0), at.v + 4.0};
}

double missOf(const BodyPaths& paths, const Proposals& proposals, int frame)
{
    const auto at = proposals.at(toeOn(frame)).at;
    const auto truth = trueToe(paths, frame);
    return std::hypot(at.u - truth.u, at.v - truth.v);
}

std::map<MarkKey, Mark> placedToes(const BodyPaths& paths)
{
    std::map<MarkKey, Mark> marks;
    for (const int frame : {2, 12}) {
        marks[toeOn(frame)] = {trueToe(paths, frame), Origin::Placed, 1.0};
    }
    return marks;
}

/// Followed on all other frames but those from 60 to 66, where the toe is lost.
FollowResult followedToes(const BodyPaths& paths)
{
    FollowResult result;
    for (int frame = 0; frame < 120; ++frame) {
        if (frame != 2 && frame != 12 && (frame < 60 || frame > 66)) {
            result.marks[toeOn(frame)] = {trueToe(paths, frame), Origin::Followed, 1.1};
            result.driftPx[toeOn(frame)] = 0.5;
        }
    }
    return result;
}

/// What a network would see of a rendered clip that errs by 1.5 cm, changing within 50 ms.
BodyPaths pathsOf(const FollowedClip& clip)
{
    BodyPaths paths;
    paths.view = View::LeftSide;
    paths.trunkPx = 50.0 * clip.truth.pixelsPerCm;
    std::mt19937 random(4);
    std::normal_distribution<double> normal(0.0, 1.5 * clip.truth.pixelsPerCm);
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        for (const auto landmark : sideViewLandmarks) {
            auto& path = paths.paths[{side, landmark}];
            PixelPoint off;
            for (std::int64_t k = 0; k < clip.reader.index().size(); ++k) {
                off = k % 6 == 0 ? PixelPoint{normal(random), normal(random)} : off;
                const auto at = clip.trueAt({{k}, side, landmark});
                path.at.push_back({at.u + off.u, at.v + off.v});
                path.peak.push_back(0.95);
                path.doubt.push_back(Doubt::None);
            }
        }
    }
    for (std::int64_t k = 0; k < clip.reader.index().size(); ++k) {
        paths.frames.push_back({k});
        paths.times.push_back(clip.reader.index().time({k}));
    }
    return paths;
}

double quantileOfMisses(const FollowedClip& clip, const Proposals& proposals, Landmark landmark,
                        double share)
{
    std::vector<double> cm;
    for (const auto& [key, proposal] : proposals) {
        if (key.side == BodySide::Near && key.landmark == landmark) {
            const auto at = clip.trueAt(key);
            cm.push_back(std::hypot(proposal.at.u - at.u, proposal.at.v - at.v) *
                         clip.cmPerPixel());
        }
    }
    std::ranges::sort(cm);
    return cm.at(static_cast<std::size_t>(share * static_cast<double>(cm.size() - 1)));
}

} // namespace

TEST_CASE("a proposal goes with what is followed from placed marks", "[propose][joined]")
{
    const auto paths = threeStrides();
    const auto marks = placedToes(paths);
    const auto alone = proposalsFrom(paths, marks);
    const auto proposals = joinedProposals(paths, marks, followedToes(paths));
    CHECK(!proposals.contains(toeOn(12)));
    CHECK(proposals.size() == alone.size());
    CHECK(missOf(paths, alone, 30) > 3.0);
    for (const int frame : {5, 30, 50, 100}) {
        CAPTURE(frame);
        CHECK(missOf(paths, proposals, frame) < 0.5);
        CHECK(proposals.at(toeOn(frame)).sePx < 0.7 * alone.at(toeOn(frame)).sePx);
        CHECK(proposals.at(toeOn(frame)).sePx > 0.5);
        CHECK(proposals.at(toeOn(frame)).doubt == Doubt::None);
    }
    // A click moves all that is followed from it: 1.1 pixels with the click, 0.5 without.
    CHECK(proposals.at(toeOn(30)).sePx == Approx(1.1).margin(0.2));
}

TEST_CASE("where following loses a landmark its other strides teach the proposal",
          "[propose][joined]")
{
    const auto paths = threeStrides();
    const auto marks = placedToes(paths);
    const auto alone = proposalsFrom(paths, marks);
    const auto proposals = joinedProposals(paths, marks, followedToes(paths));
    for (const int frame : {60, 63, 66}) {
        CAPTURE(frame);
        CHECK(missOf(paths, proposals, frame) < 1.5);
        CHECK(missOf(paths, proposals, frame) < missOf(paths, alone, frame));
    }
}

TEST_CASE("what following and the network put far apart is doubtful", "[propose][joined]")
{
    const auto paths = threeStrides();
    const auto marks = placedToes(paths);
    auto followed = followedToes(paths);
    followed.marks[toeOn(51)].at.u += 60.0; // gone over to the other leg
    const auto proposals = joinedProposals(paths, marks, followed);
    CHECK(proposals.at(toeOn(51)).doubt == Doubt::TwoPlaces);
    CHECK(proposals.at(toeOn(51)).sePx > 30.0);
    CHECK(proposals.at(toeOn(50)).doubt == Doubt::None);
}

TEST_CASE("one placed step makes proposals of a whole rendered clip as sure as following",
          "[propose][joined][follow]")
{
    FollowedClip clip(smallRunner(12));
    const auto paths = pathsOf(clip);
    auto marks = clip.oneStepOfEachFoot(1, 0.0, 1).marks;
    std::erase_if(marks, [](const auto& entry) { return entry.first.side == BodySide::Far; });
    const auto alone = proposalsFrom(paths, marks);
    const auto proposals = bestProposals(clip.reader, paths, marks).proposals;
    CHECK(proposals.size() == alone.size());
    for (const auto landmark : {Landmark::Ear, Landmark::Shoulder, Landmark::Hip, Landmark::Knee,
                                Landmark::Ankle, Landmark::Heel}) {
        CAPTURE(std::string(nameOf(landmark)));
        CHECK(quantileOfMisses(clip, proposals, landmark, 0.5) < 1.0);
        CHECK(quantileOfMisses(clip, proposals, landmark, 0.5) <
              0.6 * quantileOfMisses(clip, alone, landmark, 0.5));
        CHECK(quantileOfMisses(clip, proposals, landmark, 0.95) < 2.5);
    }
    // Not followed to the end, or nothing to follow: what the network sees alone.
    FollowOptions options;
    options.goOn = [](double) { return false; };
    const auto stopped = bestProposals(clip.reader, paths, marks, options);
    CHECK(stopped.proposals == alone);
    CHECK(stopped.remark.empty());
    CHECK(bestProposals(clip.reader, paths, {}).proposals == proposalsFrom(paths, {}));
}

TEST_CASE("marks that cannot be followed are told, and the network's proposals stand",
          "[propose][joined][follow]")
{
    FollowedClip clip(smallRunner(12));
    const auto paths = pathsOf(clip);
    const Mark outside{{-4000.0, -4000.0}, Origin::Placed, std::nullopt};
    const std::map<MarkKey, Mark> marks{{{{0}, BodySide::Near, Landmark::Knee}, outside},
                                        {{{0}, BodySide::Near, Landmark::Ankle}, outside}};
    const auto best = bestProposals(clip.reader, paths, marks);
    CHECK(best.proposals == proposalsFrom(paths, marks));
    CHECK(best.remark.find("not followed: ") != std::string::npos);
    CHECK(best.remark.ends_with('.'));
}

TEST_CASE("where a toe is lost the followed heel and ankle tell how far from them it is",
          "[propose]")
{
    auto paths = threeStrides();
    const auto whole = paths;
    FollowResult followed;
    for (const auto landmark : bonedPoints) {
        for (int frame = 0; frame < 120; ++frame) {
            if (landmark == Landmark::Toe && frame >= 60 && frame <= 66) {
                continue;
            }
            const MarkKey key{{frame}, BodySide::Near, landmark};
            const auto at =
                paths.paths.at({key.side, landmark}).at[static_cast<std::size_t>(frame)];
            followed.marks[key] = {at, Origin::Followed, 1.0};
            followed.driftPx[key] = 0.5;
        }
    }
    constexpr std::size_t lost = 63;
    const auto ankle = paths.paths.at({BodySide::Near, Landmark::Ankle}).at[lost];
    auto& seen = paths.paths.at(toe).at[lost];
    const double length = std::hypot(seen.u - ankle.u, seen.v - ankle.v);
    seen.u += 25.0 * (seen.u - ankle.u) / length; // 25 px too far from the ankle
    seen.v += 25.0 * (seen.v - ankle.v) / length;
    const auto proposals = joinedProposals(paths, {}, followed);
    const auto at = proposals.at(toeOn(lost)).at;
    const auto there = whole.paths.at(toe).at[lost];
    CHECK(std::hypot(at.u - there.u, at.v - there.v) < 8.0);
    const auto held = proposals.at({{lost}, BodySide::Near, Landmark::Ankle}).at;
    CHECK(std::hypot(held.u - ankle.u, held.v - ankle.v) < 2.0);
}
