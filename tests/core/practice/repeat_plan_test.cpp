// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/practice/repeat_plan.hpp"

#include "tests/catch.hpp"

#include <algorithm>
#include <set>

using namespace latemile;

namespace {

constexpr int stanceCount = 10;

FrameIndex index()
{
    std::vector<Seconds> times;
    for (int i = 0; i < 500; ++i) {
        times.emplace_back(i * 0.01);
    }
    return FrameIndex(times);
}

/// Left and right steps 0.4 s apart; the near ear and hip placed at every contact.
Marking marking()
{
    Marking made;
    for (int i = 0; i < stanceCount; ++i) {
        const Seconds contact{0.105 + 0.4 * i};
        made.stances.push_back({i % 2 == 0 ? Foot::Left : Foot::Right, contact,
                                contact + Seconds{0.25}, Origin::Placed, std::nullopt});
        for (const auto landmark : {Landmark::Ear, Landmark::Hip}) {
            made.marks[{{11 + 40 * i}, BodySide::Near, landmark}] = {
                {100.0, 100.0}, Origin::Placed, std::nullopt};
        }
    }
    return made;
}

} // namespace

TEST_CASE("a repeat asks for placed instants only, each once", "[practice]")
{
    auto marked = marking();
    marked.marks.at({{51}, BodySide::Near, Landmark::Hip}).origin = Origin::Followed;
    const auto plan = repeatPlan(marked, index(), 100, 1);
    CHECK(plan.size() == stanceCount - 1);
    std::set<FrameNumber> frames;
    for (const auto& cell : plan) {
        CHECK(cell.instant == Instant::Contact);
        CHECK(cell.frame != FrameNumber{51});
        CHECK(cell.asked.size() == 2);
        frames.insert(cell.frame);
    }
    CHECK(frames.size() == plan.size());
}

TEST_CASE("a repeat of a few instants takes them from all over the clip", "[practice]")
{
    for (const std::uint64_t seed : {1U, 2U, 3U, 4U}) {
        const auto plan = repeatPlan(marking(), index(), 5, seed);
        REQUIRE(plan.size() == 5);
        std::set<std::int64_t> fifths;
        for (const auto& cell : plan) {
            fifths.insert((cell.frame.value - 11) / 40 / 2);
        }
        CHECK(fifths == std::set<std::int64_t>{0, 1, 2, 3, 4});
    }
}

TEST_CASE("the order of a repeat is random, and the same for the same seed", "[practice]")
{
    const auto frames = [](std::uint64_t seed) {
        std::vector<std::int64_t> order;
        for (const auto& cell : repeatPlan(marking(), index(), 10, seed)) {
            order.push_back(cell.frame.value);
        }
        return order;
    };
    CHECK(frames(7) == frames(7));
    CHECK(frames(7) != frames(8));
    auto sorted = frames(7);
    std::ranges::sort(sorted);
    CHECK(frames(7) != sorted);
}

TEST_CASE("a repeat begins with the contacts and without a mark", "[practice]")
{
    const auto blank = blankFor(marking());
    CHECK(blank.marks.empty());
    CHECK(blank.stances == marking().stances);
}

TEST_CASE("a clip without placed marks has nothing to repeat", "[practice]")
{
    CHECK(repeatPlan(blankFor(marking()), index(), 10, 1).empty());
}
