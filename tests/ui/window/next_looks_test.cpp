// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/search_frames.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/even_index.hpp"
#include "ui/marks/next_looks.hpp"

#include <algorithm>

using namespace latemile;
using namespace latemile::ui;
using For = NextLooks::For;

namespace {

const auto clip = tests::evenIndex(672, 120.0);

void look(LookedAt& known, const NextLooks& looks)
{
    known.frames.insert(looks.frames.begin(), looks.frames.end());
}

} // namespace

TEST_CASE("a clip nobody has marked is looked at in the order in which its coach can work", "[ui]")
{
    LookedAt known{.frames = {}, .cells = {}, .start = {0}, .findsContacts = true};
    auto next = nextLooks(clip, known);
    CHECK(next.what == For::FirstSteps);
    CHECK(next.frames == firstFrames(clip, {0}));
    look(known, next);

    known.cells = {{30}, {44}, {58}};
    next = nextLooks(clip, known);
    CHECK(next.what == For::Cells);
    CHECK(next.frames == std::vector<FrameNumber>{{44}, {58}}); // 30 is a third frame
    look(known, next);

    next = nextLooks(clip, known);
    CHECK(next.what == For::Contacts);
    CHECK_FALSE(next.isLast);
    look(known, next);
    CHECK(std::ranges::includes(known.frames, thinFrames(clip)));

    int goes = 0;
    while (!next.isLast) {
        REQUIRE(++goes < 20);
        next = nextLooks(clip, known);
        CHECK(next.what == For::Rest);
        CHECK(next.frames.size() <= std::max<std::size_t>(60, known.frames.size() / 3));
        look(known, next);
    }
    CHECK(known.frames.size() == 672);
    next = nextLooks(clip, known);
    CHECK(next.frames.empty());
    CHECK(next.isLast);
}

TEST_CASE(
    "where the coach has marked contacts the cells come first, with what tells the legs there",
    "[ui]")
{
    LookedAt known{.frames = {}, .cells = {{100}}, .start = {0}, .findsContacts = false};
    auto next = nextLooks(clip, known);
    CHECK(next.what == For::Cells);
    CHECK(next.frames == withNeighbours({{100}}, clip));
    look(known, next);
    next = nextLooks(clip, known);
    CHECK(next.what == For::Rest);
    CHECK(next.frames.front() == FrameNumber{0});
}

TEST_CASE("a clip of five minutes takes less than twenty goes, not hundreds", "[ui]")
{
    const auto longClip = tests::evenIndex(36000, 120.0);
    LookedAt known{.frames = {}, .cells = {}, .start = {0}, .findsContacts = true};
    NextLooks next;
    int goes = 0;
    while (!next.isLast) {
        REQUIRE(++goes < 20);
        next = nextLooks(longClip, known);
        look(known, next);
    }
    CHECK(known.frames.size() == 36000);
}

TEST_CASE("a clip shorter than a stride is looked at in one go", "[ui]")
{
    const auto shortClip = tests::evenIndex(40, 60.0);
    LookedAt known{.frames = {}, .cells = {}, .start = {10}, .findsContacts = true};
    const auto next = nextLooks(shortClip, known);
    CHECK(next.frames.size() == 40);
    CHECK_FALSE(next.isLast); // contacts are to be found from it
    look(known, next);
    CHECK(nextLooks(shortClip, known).isLast);
}

TEST_CASE("where the runner's first stride has no frame the whole clip is looked at", "[ui]")
{
    // A recording gap of two seconds behind the frame on which the runner was shown.
    std::vector<Seconds> times;
    for (int k = 0; k < 1000; ++k) {
        times.push_back(Seconds{k / 120.0 + (k > 5 ? 2.0 : 0.0)});
    }
    const FrameIndex gap(times);
    REQUIRE(firstFrames(gap, {5}).empty());
    const auto next =
        nextLooks(gap, {.frames = {}, .cells = {}, .start = {5}, .findsContacts = true});
    CHECK(next.what == For::Contacts);
    CHECK(next.frames == thinFrames(gap));
}
