// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/bridged_marks.hpp"
#include "core/propose/search_frames.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/even_index.hpp"

using namespace latemile;
using namespace latemile::tests;

namespace {

std::vector<std::int64_t> numbersOf(const std::vector<FrameNumber>& frames)
{
    std::vector<std::int64_t> numbers;
    for (const auto frame : frames) {
        numbers.push_back(frame.value);
    }
    return numbers;
}

} // namespace

TEST_CASE("every frame is searched up to 125 a second, above that every n-th", "[propose]")
{
    CHECK(framesToSearch(evenIndex(30, 30)).size() == 30);
    CHECK(framesToSearch(evenIndex(120, 120)).size() == 120);
    CHECK(numbersOf(framesToSearch(evenIndex(9, 240))) == std::vector<std::int64_t>{0, 2, 4, 6, 8});
    CHECK(framesToSearch(evenIndex(1, 60)).size() == 1);
}

TEST_CASE("a frame's neighbours lie a 60th of a second apart and end with the clip", "[propose]")
{
    CHECK(numbersOf(withNeighbours({{20}}, evenIndex(100, 120))) ==
          std::vector<std::int64_t>{16, 18, 20, 22, 24});
    CHECK(numbersOf(withNeighbours({{1}, {2}}, evenIndex(100, 60))) ==
          std::vector<std::int64_t>{0, 1, 2, 3, 4});
}

TEST_CASE("thin frames are searched ones, so close that contacts can be found between them",
          "[propose]")
{
    const double rate = GENERATE(25.0, 50.0, 60.0, 100.0, 119.88, 120.0, 240.0, 480.0);
    CAPTURE(rate);
    const auto index = evenIndex(1000, rate);
    const auto searched = framesToSearch(index);
    const auto thin = thinFrames(index);
    CHECK(std::ranges::includes(searched, thin));
    for (std::size_t k = 1; k < thin.size(); ++k) {
        const auto apart = index.time(thin[k]) - index.time(thin[k - 1]);
        CHECK((apart < widestBridge || thin[k].value == thin[k - 1].value + 1));
    }
}

TEST_CASE("what is looked at first is a stride from where the runner was shown, inside the clip",
          "[propose]")
{
    const auto index = evenIndex(600, 120);
    const auto first = firstFrames(index, {0});
    CHECK(first.size() == 37); // of 0.9 s
    CHECK(first.front() == FrameNumber{0});
    CHECK(firstFrames(index, {240}).front() == FrameNumber{240});
    const auto last = firstFrames(index, {598});
    CHECK(last.size() >= 36);
    CHECK(last.back().value >= 597);
    CHECK(firstFrames(evenIndex(30, 120), {10}).size() == 10); // shorter than a stride: all of it
}
