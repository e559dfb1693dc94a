// SPDX-License-Identifier: GPL-3.0-or-later
// Following against the exact truth of rendered clips: the maker knows where every landmark is on
// every frame, by its own model and without any code of core/follow.
#include "core/follow/follow.hpp"

#include "tests/catch.hpp"
#include "tests/core/follow/clip_of_greys.hpp"
#include "tests/core/follow/followed_clip.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>
#include <utility>

using namespace latemile;
using namespace latemile::tests;

namespace {

const FollowedClip& runner()
{
    static const FollowedClip clip(smallRunner(21));
    return clip;
}

ClipReader opened(const FollowedClip& clip)
{
    return ClipReader::open(clip.folder / "clip.mp4").value();
}

FollowResult followed(const FollowedClip& clip, const Marking& marking)
{
    auto reader = opened(clip);
    auto result = followMarks(reader, marking);
    INFO((result ? std::string() : result.error().sentence));
    REQUIRE(result);
    return std::move(*result);
}

std::vector<double> errorsCm(const FollowedClip& clip, const FollowResult& result, BodySide side,
                             Landmark landmark)
{
    std::vector<double> errors;
    for (const auto& [key, mark] : result.marks) {
        if (key.side == side && key.landmark == landmark) {
            const auto at = clip.trueAt(key);
            errors.push_back(std::hypot(mark.at.u - at.u, mark.at.v - at.v) * clip.cmPerPixel());
        }
    }
    std::sort(errors.begin(), errors.end());
    return errors;
}

struct Honesty {
    int within{};
    int all{};
};

void judge(const FollowedClip& clip, const FollowResult& result, Honesty& honesty)
{
    for (const auto& [key, mark] : result.marks) {
        const auto at = clip.trueAt(key);
        honesty.within += std::abs(mark.at.u - at.u) <= 2.0 * *mark.sePx ? 1 : 0;
        honesty.within += std::abs(mark.at.v - at.v) <= 2.0 * *mark.sePx ? 1 : 0;
        honesty.all += 2;
    }
}

} // namespace

TEST_CASE("one marked step is carried through the whole clip", "[follow]")
{
    const auto& clip = runner();
    const auto result = followed(clip, clip.oneStepOfEachFoot(1, 0.0, 1));
    for (const auto landmark : {Landmark::Ear, Landmark::Shoulder, Landmark::Hip, Landmark::Knee,
                                Landmark::Ankle, Landmark::Heel, Landmark::Toe}) {
        const auto errors = errorsCm(clip, result, BodySide::Near, landmark);
        CAPTURE(nameOf(landmark), errors.size());
        REQUIRE(errors.size() > clip.truth.frames.size() * 3 / 4);
        CAPTURE(errors[errors.size() / 2], errors[errors.size() * 9 / 10]);
        CHECK(errors[errors.size() / 2] < 1.0);
        CHECK(errors[errors.size() * 9 / 10] < 3.0);
    }
}

TEST_CASE("at the clip's ends, beyond the last seed, the leg is as truly followed as between",
          "[follow]")
{
    std::vector<double> errors;
    std::size_t frames = 0;
    for (const unsigned seed : {21U, 23U, 24U}) {
        const FollowedClip clip(smallRunner(seed));
        const auto result = followed(clip, clip.oneStepOfEachFoot(1, 0.0, 1));
        const auto& times = clip.truth.frames;
        for (std::int64_t i = 0; i < clip.reader.index().size(); ++i) {
            const double time = times[static_cast<std::size_t>(i)].seconds;
            if (time - times.front().seconds > 0.15 && times.back().seconds - time > 0.15) {
                continue;
            }
            for (const auto landmark : {Landmark::Knee, Landmark::Ankle, Landmark::Toe}) {
                const MarkKey key{{i}, BodySide::Near, landmark};
                ++frames;
                if (const auto mark = result.marks.find(key); mark != result.marks.end()) {
                    const auto at = clip.trueAt(key);
                    errors.push_back(
                        std::hypot(mark->second.at.u - at.u, mark->second.at.v - at.v) *
                        clip.cmPerPixel());
                }
            }
        }
    }
    std::ranges::sort(errors);
    REQUIRE_FALSE(errors.empty());
    CAPTURE(errors.size(), frames, errors[errors.size() / 2], errors[errors.size() * 9 / 10]);
    CHECK(errors.size() > frames * 9 / 10);
    CHECK(errors[errors.size() / 2] < 0.4);
    CHECK(errors[errors.size() * 9 / 10] < 1.5);
}

TEST_CASE("what following says of its errors is true", "[follow]")
{
    // 95.4 % of normal errors lie within two standard errors; 90 to 98 % is asked for, over
    // markings by several hands.
    const auto& clip = runner();
    Honesty honesty;
    for (const unsigned seed : {1U, 2U, 3U, 4U}) {
        judge(clip, followed(clip, clip.oneStepOfEachFoot(1, 1.0, seed)), honesty);
    }
    const double share = 100.0 * honesty.within / honesty.all;
    CAPTURE(share);
    CHECK(share >= 90.0);
    CHECK(share <= 99.0);
}

TEST_CASE("placed marks stay where they were placed", "[follow]")
{
    const auto& clip = runner();
    const auto marking = clip.oneStepOfEachFoot(1, 1.0, 4);
    for (const auto& [key, mark] : followed(clip, marking).marks) {
        CHECK(mark.origin == Origin::Followed);
        CHECK(marking.find(key) == nullptr);
        CHECK(mark.sePx);
        if (key.side == BodySide::Far) {
            CHECK((key.landmark == Landmark::Ankle || key.landmark == Landmark::Heel ||
                   key.landmark == Landmark::Toe));
        }
    }
}

TEST_CASE("following anew from the same marks gives the same path", "[follow]")
{
    const auto& clip = runner();
    const auto marking = clip.oneStepOfEachFoot(1, 0.0, 1);
    const auto result = followed(clip, marking);
    REQUIRE(result.flow);
    std::set<MarkKey> changed;
    for (const auto& [key, mark] : marking.marks) {
        changed.insert(key);
    }
    const auto anew = result.flow->followedAnew(marking, changed);
    std::size_t compared = 0;
    for (const auto& [key, mark] : anew) {
        if (const auto then = result.marks.find(key); then != result.marks.end()) {
            REQUIRE(mark);
            REQUIRE(std::hypot(mark->at.u - then->second.at.u, mark->at.v - then->second.at.v) <
                    1e-6);
            REQUIRE(*mark->sePx == Approx(*then->second.sePx));
            ++compared;
        } else {
            REQUIRE_FALSE(mark);
        }
    }
    CHECK(compared > 50);
}

TEST_CASE("a corrected mark takes its path along up to the neighbouring anchors", "[follow]")
{
    const auto& clip = runner();
    auto marking = clip.oneStepOfEachFoot(1, 0.0, 1);
    const auto result = followed(clip, marking);
    REQUIRE(result.flow);
    // Between the placed frames of mid-stance and toe-off, and three centimetres off.
    std::int64_t midStance = -1;
    std::int64_t toeOff = -1;
    for (const auto& [key, mark] : marking.marks) {
        if (key.side == BodySide::Near && key.landmark == Landmark::Knee) {
            midStance =
                midStance < 0 || toeOff < 0 ? std::exchange(toeOff, key.frame.value) : midStance;
        }
    }
    const MarkKey key{{(midStance + toeOff) / 2}, BodySide::Near, Landmark::Knee};
    CAPTURE(midStance, toeOff);
    REQUIRE(toeOff - midStance >= 6);
    const auto then = result.marks.at(key).at;
    const double off = 3.0 / clip.cmPerPixel();
    marking.marks[key] = Mark{{then.u + off, then.v}, Origin::Placed, std::nullopt};
    const auto anew = result.flow->followedAnew(marking, {key});
    for (const std::int64_t by : {-1, 1}) {
        const MarkKey beside{{key.frame.value + by}, key.side, key.landmark};
        REQUIRE(anew.contains(beside));
        REQUIRE(anew.at(beside));
        CHECK(anew.at(beside)->at.u - result.marks.at(beside).at.u == Approx(off).epsilon(0.35));
    }
    for (const auto& [at, mark] : anew) {
        CHECK(at.landmark == key.landmark);
        CHECK(at.side == key.side);
        CHECK(at.frame.value > midStance);
        CHECK(at.frame.value < toeOff);
    }
    // Taken away again, all is as before.
    marking.marks.erase(key);
    for (const auto& [at, mark] : result.flow->followedAnew(marking, {key})) {
        REQUIRE(mark);
        CHECK(std::hypot(mark->at.u - result.marks.at(at).at.u,
                         mark->at.v - result.marks.at(at).at.v) < 1e-6);
    }
    CHECK(result.flow->followedAnew(marking, {}).empty());
}

TEST_CASE("a lamp that goes dim half-way does not lose the runner", "[follow]")
{
    auto recipe = smallRunner(22);
    recipe.picture.lightingChange = 0.4;
    const FollowedClip clip(recipe);
    const auto errors = errorsCm(clip, followed(clip, clip.oneStepOfEachFoot(1, 0.0, 1)),
                                 BodySide::Near, Landmark::Knee);
    REQUIRE(errors.size() > clip.truth.frames.size() * 3 / 4);
    CHECK(errors[errors.size() / 2] < 1.0);
}

TEST_CASE("stopping leaves nothing half done", "[follow]")
{
    const auto& clip = runner();
    auto reader = opened(clip);
    int asked = 0;
    FollowOptions options;
    options.goOn = [&](double share) {
        CHECK(share >= 0.0);
        CHECK(share <= 1.0);
        return ++asked < 40;
    };
    const auto result = followMarks(reader, clip.oneStepOfEachFoot(1, 0.0, 1), options);
    REQUIRE_FALSE(result);
    CHECK(result.error().kind == Error::Kind::Cancelled);
}

TEST_CASE("what cannot be followed is refused in one sentence", "[follow]")
{
    const auto& clip = runner();
    auto reader = opened(clip);
    SECTION("no placed mark")
    {
        auto marking = clip.oneStepOfEachFoot(1, 0.0, 1);
        for (auto& [key, mark] : marking.marks) {
            mark.origin = Origin::Proposed;
        }
        const auto result = followMarks(reader, marking);
        REQUIRE_FALSE(result);
        CHECK(result.error().sentence.find("mark one step") != std::string::npos);
    }
    SECTION("a stretch that is not in the clip")
    {
        FollowOptions options;
        options.last = FrameNumber{5000};
        const auto result = followMarks(reader, clip.oneStepOfEachFoot(1, 0.0, 1), options);
        REQUIRE_FALSE(result);
        CHECK(result.error().sentence.find("5000") != std::string::npos);
    }
    SECTION("all marks in one corner outside the picture")
    {
        Marking marking;
        marking.marks[{{10}, BodySide::Near, Landmark::Heel}] =
            Mark{{-300.0, -200.0}, Origin::Placed, std::nullopt};
        const auto result = followMarks(reader, marking);
        REQUIRE_FALSE(result);
        CHECK(result.error().kind == Error::Kind::Inconsistent);
    }
}

TEST_CASE("a clip that begins black is followed like any other", "[follow]")
{
    // Brightness was once evened to that of the first frame, which left next to nothing of the
    // rest.
    const auto& clip = runner();
    const ScratchFolder folder;
    const auto file = folder / "black.mp4";
    const auto command =
        "ffmpeg -v error -y -i '" + (clip.folder / "clip.mp4").string() +
        "' -vf \"drawbox=c=black:t=fill:enable='lt(n,3)'\" -c:v libx264 -crf 18 '" + file.string() +
        "'";
    REQUIRE(std::system(command.c_str()) == 0);
    auto reader = ClipReader::open(file).value();
    const auto result = followMarks(reader, clip.oneStepOfEachFoot(1, 0.0, 1));
    REQUIRE(result);
    for (const auto landmark : {Landmark::Knee, Landmark::Heel}) {
        const auto errors = errorsCm(clip, *result, BodySide::Near, landmark);
        CAPTURE(nameOf(landmark), errors.size());
        REQUIRE(errors.size() > clip.truth.frames.size() * 3 / 4);
        CHECK(errors[errors.size() / 2] < 1.0);
        CHECK(errors[errors.size() * 9 / 10] < 3.0);
    }
}

TEST_CASE("a clip of three frames, one without texture and one that stands still end at once",
          "[follow]")
{
    const auto [frames, texture] = GENERATE(table<int, GreyTexture>(
        {{3, GreyTexture::Noise}, {40, GreyTexture::None}, {40, GreyTexture::Noise}}));
    const ScratchFolder folder;
    const auto file = clipOfGreys(folder, frames, texture);
    auto reader = ClipReader::open(file).value();
    Marking marking;
    double v = 60.0;
    for (const auto landmark : sideViewLandmarks) {
        marking.marks[{{1}, BodySide::Near, landmark}] =
            Mark{{150.0 + 0.2 * v, v}, Origin::Placed, std::nullopt};
        v += 18.0;
    }
    const auto result = followMarks(reader, marking);
    CAPTURE(frames);
    REQUIRE(result);
    for (const auto& [key, mark] : result->marks) {
        // Nothing moves, so whatever is followed stays.
        const auto* placed = marking.find({{1}, key.side, key.landmark});
        CHECK(std::hypot(mark.at.u - placed->at.u, mark.at.v - placed->at.v) < 1.0);
    }
    if (texture == GreyTexture::None) {
        CHECK(result->marks.empty());
        REQUIRE_FALSE(result->gaps.empty());
        CHECK(sentenceOf(result->gaps.front()).find("was lost on frame") != std::string::npos);
    }
}
