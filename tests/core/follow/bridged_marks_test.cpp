// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/bridged_marks.hpp"
#include "tests/catch.hpp"

#include <algorithm>
#include <cmath>

using namespace latemile;

namespace {

constexpr double rate = 120.0;
constexpr std::int64_t frames = 60;

FrameIndex clipIndex()
{
    std::vector<Seconds> times;
    for (std::int64_t i = 0; i < frames; ++i) {
        times.emplace_back(static_cast<double>(i) / rate);
    }
    return FrameIndex(times);
}

/// A toe that comes down and stands: y = 100 px and more, from 400 ms on.
PixelPoint toeAt(std::int64_t frame)
{
    const double t = static_cast<double>(frame) / rate;
    const double early = std::max(0.0, 0.4 - t);
    return {600.0 - 900.0 * t, 100.0 - 600.0 * early * early};
}

Marking toesOnEvery(std::int64_t nth, Origin origin)
{
    Marking marking;
    for (std::int64_t i = 0; i < frames; i += nth) {
        marking.marks[{{i}, BodySide::Near, Landmark::Toe}] = {toeAt(i), origin, 3.0};
    }
    return marking;
}

} // namespace

TEST_CASE("between proposed marks on every third frame the others are filled as the foot moves",
          "[follow]")
{
    const auto whole = bridged(toesOnEvery(3, Origin::Proposed), clipIndex());
    for (std::int64_t i = 0; i <= 57; ++i) {
        CAPTURE(i);
        const auto* mark = whole.find({{i}, BodySide::Near, Landmark::Toe});
        REQUIRE(mark != nullptr);
        CHECK(std::abs(mark->at.u - toeAt(i).u) < 0.5);
        CHECK(std::abs(mark->at.v - toeAt(i).v) < 0.5);
        CHECK(mark->origin == Origin::Proposed);
    }
    CHECK(whole.find({{58}, BodySide::Near, Landmark::Toe}) == nullptr); // behind the last one
}

TEST_CASE("nothing is filled between marks that are followed or placed, or too far apart",
          "[follow]")
{
    const auto followed = toesOnEvery(3, Origin::Followed);
    CHECK(bridged(followed, clipIndex()).marks == followed.marks);
    const auto placed = toesOnEvery(3, Origin::Placed);
    CHECK(bridged(placed, clipIndex()).marks == placed.marks);
    const auto apart = toesOnEvery(4, Origin::Proposed); // 33 ms
    CHECK(bridged(apart, clipIndex()).marks == apart.marks);
    const auto every = toesOnEvery(1, Origin::Proposed);
    CHECK(bridged(every, clipIndex()).marks == every.marks);
}
