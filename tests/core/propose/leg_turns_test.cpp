// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/leg_turns.hpp"
#include "core/propose/proposals.hpp"
#include "core/propose/row_bound.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/modelled_bodies.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::tests;

namespace {

BodyPaths modelledPaths()
{
    auto paths = bodyPathsFrom(ModelledRunner{}.bodies(), std::nullopt, 1280, 720);
    REQUIRE(paths);
    return *paths;
}

Marking modelledMarking()
{
    Marking marking;
    marking.marks = marksOf(proposalsFrom(modelledPaths(), {}));
    return marking;
}

/// The model's stride is 40 frames long; its ankles are farthest apart here and half a stride on.
constexpr FrameNumber apart{10};
constexpr FrameNumber apartAgain{30};

void putInto(Marking& marking, const std::map<MarkKey, std::optional<Mark>>& changes)
{
    for (const auto& [key, mark] : changes) {
        if (mark) {
            marking.marks[key] = *mark;
        } else {
            marking.marks.erase(key);
        }
    }
}

Mark at(const Marking& marking, int frame, BodySide side, Landmark landmark)
{
    const Mark* mark = marking.find({{frame}, side, landmark});
    REQUIRE(mark != nullptr);
    return *mark;
}

} // namespace

TEST_CASE("exchanging legs swaps knee to toe of both sides on the stretch and nothing else",
          "[propose]")
{
    const auto before = modelledMarking();
    auto after = before;
    putInto(after, exchangedLegMarks(before, apart, apartAgain));
    for (const auto landmark : {Landmark::Knee, Landmark::Ankle, Landmark::Heel, Landmark::Toe}) {
        CAPTURE(nameOf(landmark));
        CHECK(at(after, 20, BodySide::Near, landmark) == at(before, 20, BodySide::Far, landmark));
        CHECK(at(after, 20, BodySide::Far, landmark) == at(before, 20, BodySide::Near, landmark));
        CHECK(at(after, 9, BodySide::Near, landmark) == at(before, 9, BodySide::Near, landmark));
        CHECK(at(after, 30, BodySide::Near, landmark) == at(before, 30, BodySide::Near, landmark));
    }
    CHECK(at(after, 20, BodySide::Near, Landmark::Hip) ==
          at(before, 20, BodySide::Near, Landmark::Hip));
    putInto(after, exchangedLegMarks(after, apart, apartAgain));
    CHECK(after == before);
}

TEST_CASE("a pair with a placed mark is not exchanged, a mark without a partner goes over",
          "[propose]")
{
    auto marking = modelledMarking();
    const MarkKey placed{{20}, BodySide::Near, Landmark::Knee};
    marking.marks[placed].origin = Origin::Placed;
    marking.marks.erase({{20}, BodySide::Far, Landmark::Toe});
    const auto changes = exchangedLegMarks(marking, {20}, FrameNumber{21});
    CHECK_FALSE(changes.contains(placed));
    CHECK_FALSE(changes.contains({{20}, BodySide::Far, Landmark::Knee}));
    CHECK(changes.at({{20}, BodySide::Far, Landmark::Toe}) ==
          at(marking, 20, BodySide::Near, Landmark::Toe));
    CHECK(changes.at({{20}, BodySide::Near, Landmark::Toe}) == std::nullopt);
}

TEST_CASE("an exchange ends where the marks go over to the other leg, or at a turn already made",
          "[propose]")
{
    auto marking = modelledMarking();
    CHECK(endOfExchange(marking, {}, {5}) == std::nullopt); // to the clip's end
    putInto(marking, exchangedLegMarks(marking, apart, apartAgain));
    CHECK(endOfExchange(marking, {}, {5}) == apart);
    CHECK(endOfExchange(marking, {}, apart) == apartAgain);
    CHECK(endOfExchange(marking, {{20}}, apart) == FrameNumber{20});
    CHECK(withExchange({}, apart, apartAgain) == LegTurns{apart, apartAgain});
    CHECK(withExchange({apart, apartAgain}, apart, apartAgain).empty());
}

TEST_CASE("proposals made again keep to the turns the coach made", "[propose]")
{
    auto marking = modelledMarking();
    putInto(marking, exchangedLegMarks(marking, apart, apartAgain));
    auto paths = modelledPaths();
    exchangeLegs(paths, {apart, apartAgain});
    const auto again = marksOf(proposalsFrom(paths, {}));
    for (const int frame : {5, 20, 35}) {
        const Mark ankle = again.at({{frame}, BodySide::Near, Landmark::Ankle});
        const Mark before = at(marking, frame, BodySide::Near, Landmark::Ankle);
        CHECK(std::hypot(ankle.at.u - before.at.u, ankle.at.v - before.at.v) < 1.0);
    }
}

TEST_CASE("the trunk of the marks is the median of near hip to near shoulder", "[propose]")
{
    Marking marking;
    CHECK(trunkPx(marking) == 0.0);
    for (const int frame : {1, 2, 3}) {
        const double length = frame == 2 ? 40.0 : 100.0 + frame; // 101, 40, 103
        marking.marks[{{frame}, BodySide::Near, Landmark::Hip}] = {{50, 200}, Origin::Proposed, {}};
        marking.marks[{{frame}, BodySide::Near, Landmark::Shoulder}] = {
            {50, 200 - length}, Origin::Proposed, {}};
    }
    CHECK(trunkPx(marking) == Approx(101.0));
}
