// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/bones.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

PlanePoint asItIs(PixelPoint point)
{
    return {point.u, -point.v};
}

void mark(Marking& marking, std::int64_t frame, Landmark landmark, PixelPoint at)
{
    marking.marks[{{frame}, BodySide::Near, landmark}] = {at, Origin::Placed, std::nullopt};
}

/// Thigh 100 px and shank 100 px on each frame, swung a little further on every one.
Marking rigidLegs(int frames)
{
    Marking marking;
    for (int n = 0; n < frames; ++n) {
        const double along = 100 * 0.28 * (n % 2);
        const double down = n % 2 == 0 ? 100 : 96; // 28, 96, 100: a right-angled triangle
        mark(marking, 10 * n, Landmark::Hip, {300, 200});
        mark(marking, 10 * n, Landmark::Knee, {300 + along, 200 + down});
        mark(marking, 10 * n, Landmark::Ankle, {300, 200 + 2 * down});
    }
    return marking;
}

} // namespace

TEST_CASE("bones that keep their length are not odd", "[marks]")
{
    CHECK(oddBones({}, asItIs).empty());
    CHECK(oddBones(rigidLegs(6), asItIs).empty());
}

TEST_CASE("an ankle 15 % too far down makes the shank of that frame odd, and only that", "[marks]")
{
    Marking marking = rigidLegs(5);
    mark(marking, 20, Landmark::Ankle, {300, 415});
    const auto odd = oddBones(marking, asItIs);
    REQUIRE(odd.size() == 1);
    CHECK(odd[0].frame == FrameNumber{20});
    CHECK(odd[0].upper == Landmark::Knee);
    CHECK(odd[0].percent == Approx(15.0));
    CHECK(odd[0].sentence ==
          "The shank is 15 % longer here than in this clip's median: look at knee and ankle.");
}

TEST_CASE("below the limit, and on two frames, nothing is odd", "[marks]")
{
    Marking nearly = rigidLegs(5);
    mark(nearly, 20, Landmark::Ankle, {300, 409});
    CHECK(oddBones(nearly, asItIs).empty());
    Marking two = rigidLegs(2);
    mark(two, 10, Landmark::Ankle, {300, 500});
    CHECK(oddBones(two, asItIs).empty());
}

TEST_CASE("a knee slipped up the thigh makes both bones odd", "[marks]")
{
    Marking marking = rigidLegs(5);
    mark(marking, 40, Landmark::Knee, {300, 280});
    const auto odd = oddBones(marking, asItIs);
    REQUIRE(odd.size() == 2);
    CHECK(odd[0].percent == Approx(-20.0));
    CHECK(odd[1].percent == Approx(20.0));
}

TEST_CASE("a doubled scale and a mirrored picture change nothing", "[marks]")
{
    Marking marking = rigidLegs(5);
    mark(marking, 20, Landmark::Ankle, {300, 415});
    const auto mirrored = [](PixelPoint point) { return PlanePoint{-2 * point.u, -2 * point.v}; };
    CHECK(oddBones(marking, mirrored) == oddBones(marking, asItIs));
}
