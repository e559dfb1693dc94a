// SPDX-License-Identifier: GPL-3.0-or-later
// Contacts of a rendered clip, whose events are exactly known, from marks that err as a pose
// network's do: restlessly, and along and across the foot by something that turns with it.
#include "core/follow/pictured_times.hpp"

#include "core/follow/contact_finder.hpp"
#include "tests/catch.hpp"
#include "tests/core/follow/followed_clip.hpp"
#include "tests/core/follow/restless.hpp"

#include <algorithm>
#include <cmath>

using namespace latemile;
using namespace latemile::tests;

namespace {

constexpr double statedCm = 2.0;
constexpr std::array legLandmarks{Landmark::Knee, Landmark::Ankle, Landmark::Heel, Landmark::Toe};

/// One side's leg, as a network sees it.
void addLeg(Marking& marking, const FollowedClip& clip, BodySide side, std::mt19937& random)
{
    for (const auto landmark : legLandmarks) {
        Restless u(random, 0.7 * clip.truth.pixelsPerCm);
        Restless v(random, 0.7 * clip.truth.pixelsPerCm);
        for (std::int64_t i = 0; i < clip.reader.index().size(); ++i) {
            const MarkKey key{{i}, side, landmark};
            const auto heel = clip.trueAt({{i}, side, Landmark::Heel});
            const auto toe = clip.trueAt({{i}, side, Landmark::Toe});
            auto at = clip.trueAt(key);
            at.u += 0.08 * (toe.u - heel.u) + u.next(); // some 2 cm
            at.v += 0.08 * (toe.v - heel.v) + v.next();
            marking.marks[key] = {at, Origin::Proposed, statedCm * clip.truth.pixelsPerCm};
        }
    }
}

Marking unsureLegs(const FollowedClip& clip, unsigned seed)
{
    std::mt19937 random(seed);
    Marking marking;
    addLeg(marking, clip, BodySide::Near, random);
    addLeg(marking, clip, BodySide::Far, random);
    return marking;
}

/// The stance found for a true one.
const Stance* stanceOf(const maker::ContactTruth& contact, const std::vector<Stance>& stances)
{
    const auto foot = contact.foot == maker::Foot::Left ? Foot::Left : Foot::Right;
    const auto found = std::ranges::find_if(stances, [&](const Stance& stance) {
        return stance.foot == foot && std::abs(stance.contact.count() - contact.contact) < 0.1;
    });
    return found == stances.end() ? nullptr : &*found;
}

struct Found {
    int all{};
    int withinAFrame{};
    int withinTwoErrors{};
};

Found foundOf(const FollowedClip& clip, const std::vector<Stance>& stances, bool toeOff)
{
    Found found;
    const double end = clip.truth.frames.back().seconds;
    for (const auto& contact : clip.truth.contacts) {
        if (contact.contact < 0.15 || contact.toeOff > end - 0.1) {
            continue;
        }
        ++found.all;
        const auto* stance = stanceOf(contact, stances);
        if (!stance || (toeOff && !stance->toeOff)) {
            continue;
        }
        const double late = toeOff ? stance->toeOff->count() - contact.toeOff
                                   : stance->contact.count() - contact.contact;
        found.withinAFrame += std::abs(late) < 1.0 / 120.0 ? 1 : 0;
        found.withinTwoErrors += std::abs(late) < 2.0 * stance->se->count() ? 1 : 0;
    }
    return found;
}

void add(Found& sum, const Found& one)
{
    sum.all += one.all;
    sum.withinAFrame += one.withinAFrame;
    sum.withinTwoErrors += one.withinTwoErrors;
}

} // namespace

TEST_CASE("the pictures tell when feet land whose marks are off by centimetres", "[follow][steps]")
{
    Found pictured;
    Found alone;
    Found left;
    for (const auto& [seed, landing] :
         {std::pair{21U, maker::Landing::Rearfoot}, std::pair{22U, maker::Landing::Forefoot}}) {
        auto recipe = smallRunner(seed);
        recipe.runner.landing = landing;
        FollowedClip clip(recipe);
        const auto marking = unsureLegs(clip, seed);
        CHECK(arePicturesOfUse(marking, clip.reader.index(), clip.scene));
        const auto byPictures = findContacts(clip.reader, marking, clip.scene);
        const auto byMarks = findContacts(marking, clip.reader.index(), clip.scene);
        REQUIRE(byPictures);
        REQUIRE(byMarks);
        add(pictured, foundOf(clip, byPictures->stances, false));
        add(alone, foundOf(clip, byMarks->stances, false));
        add(left, foundOf(clip, byPictures->stances, true));
        for (const auto& stance : byPictures->stances) {
            CHECK(stance.origin == Origin::Proposed);
            CHECK(stance.contact.count() > 0.0);
            CHECK((!stance.toeOff || stance.toeOff->count() < clip.truth.frames.back().seconds));
        }
    }
    CAPTURE(pictured.all, pictured.withinAFrame, alone.withinAFrame, left.withinAFrame);
    REQUIRE(pictured.all >= 8);
    CHECK(pictured.withinAFrame >= 0.9 * pictured.all); // at 960 x 540 pixels
    CHECK(left.withinAFrame >= 0.75 * left.all);
    CHECK(pictured.withinAFrame >= 2 * alone.withinAFrame);
    CHECK(pictured.withinTwoErrors >= 0.9 * pictured.all);
    CHECK(left.withinTwoErrors >= 0.9 * left.all);
}

TEST_CASE("a stride with marks on every third frame has its contacts, and none beyond it",
          "[follow][steps]")
{
    FollowedClip clip(smallRunner(21));
    auto marking = unsureLegs(clip, 21);
    constexpr double from = 0.8;
    constexpr double to = 2.0;
    const auto& index = clip.reader.index();
    std::erase_if(marking.marks, [&](const auto& entry) {
        const double time = index.time(entry.first.frame).count();
        return entry.first.frame.value % 3 != 0 || time < from || time > to;
    });
    const auto found = findContacts(clip.reader, marking, clip.scene);
    REQUIRE(found);
    int inside = 0;
    for (const auto& contact : clip.truth.contacts) {
        const auto* stance = stanceOf(contact, found->stances);
        if (contact.contact > from + 0.1 && contact.toeOff < to - 0.1) {
            ++inside;
            CAPTURE(contact.contact);
            REQUIRE(stance != nullptr);
            CHECK(std::abs(stance->contact.count() - contact.contact) < 1.0 / 120.0);
        }
    }
    CHECK(inside >= 2);
    for (const auto& stance : found->stances) {
        CHECK(stance.contact.count() > from);
        CHECK((!stance.toeOff || stance.toeOff->count() < to));
    }
}

TEST_CASE("of a slow clip contacts are as unsure as they are told to be", "[follow][steps]")
{
    auto recipe = smallRunner(23);
    recipe.video.captureRate = 30.0;
    FollowedClip clip(recipe);
    const auto found = findContacts(clip.reader, unsureLegs(clip, 23), clip.scene);
    REQUIRE(found);
    int seen = 0;
    for (const auto& contact : clip.truth.contacts) {
        if (const auto* stance = stanceOf(contact, found->stances)) {
            CAPTURE(contact.contact, stance->contact.count(), stance->se->count());
            CHECK(std::abs(stance->contact.count() - contact.contact) < 2 * stance->se->count());
            ++seen;
        }
    }
    CHECK(seen >= 3);
}

TEST_CASE("finding contacts by the pictures ends when it is told to", "[follow][steps]")
{
    auto recipe = smallRunner(21);
    recipe.video.duration = 1.2;
    FollowedClip clip(recipe);
    const auto marking = unsureLegs(clip, 21);
    double told = 0.0;
    const auto stopped = findContacts(clip.reader, marking, clip.scene, [&](double share) {
        CHECK(share >= told);
        told = share;
        return share < 0.6;
    });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().kind == Error::Kind::Cancelled);
    CHECK(told < 0.8);
}

TEST_CASE("of feet whose marks are sure no picture is looked at", "[follow][steps]")
{
    auto recipe = smallRunner(21);
    recipe.video.duration = 1.2;
    FollowedClip clip(recipe);
    auto marking = unsureLegs(clip, 21);
    for (auto& [key, mark] : marking.marks) {
        mark = {clip.trueAt(key), Origin::Followed, 0.3};
    }
    CHECK_FALSE(arePicturesOfUse(marking, clip.reader.index(), clip.scene));
    bool looked = false;
    const auto found = findContacts(clip.reader, marking, clip.scene, [&](double) {
        looked = true;
        return true;
    });
    REQUIRE(found);
    CHECK_FALSE(looked);
    CHECK(found->stances == findContacts(marking, clip.reader.index(), clip.scene)->stances);
}
