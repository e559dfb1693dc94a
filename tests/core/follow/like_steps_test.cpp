// SPDX-License-Identifier: GPL-3.0-or-later
// Contacts from marks as unsure as the pose network's, against the exact events of modelled
// runners.
#include "core/follow/like_steps.hpp"

#include "core/follow/contact_finder.hpp"
#include "core/median.hpp"
#include "sample_clips/maker/render_clip.hpp"
#include "tests/catch.hpp"
#include "tests/core/follow/modelled_truth.hpp"
#include "tests/core/follow/restless.hpp"

#include <algorithm>
#include <cmath>
#include <random>

using namespace latemile;
using namespace latemile::tests;

namespace {

maker::Truth runner(unsigned seed, maker::Landing landing)
{
    maker::ClipRecipe recipe;
    recipe.runner = {.seed = seed, .speed = 2.7, .stepRate = 164.0, .landing = landing};
    recipe.video.captureRate = 120.0;
    recipe.video.duration = 6.0;
    return maker::truthWithoutClip(recipe).value();
}

/// Heel and toe of both feet, each mark stating this error.
Marking restlessMarks(const maker::Truth& truth, double statedCm)
{
    std::mt19937 random(7);
    Marking marking;
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        for (const auto landmark : {Landmark::Heel, Landmark::Toe}) {
            const std::size_t place = landmark == Landmark::Heel ? 7 : 8;
            Restless u(random, 0.7 * truth.pixelsPerCm);
            Restless v(random, 0.7 * truth.pixelsPerCm);
            for (std::size_t i = 0; i < truth.frames.size(); ++i) {
                const auto& sides = truth.frames[i];
                auto at = (side == BodySide::Near ? sides.left : sides.right)[place];
                at.u += u.next();
                at.v += v.next();
                marking.marks[{{static_cast<std::int64_t>(i)}, side, landmark}] =
                    Mark{at, Origin::Proposed, statedCm * truth.pixelsPerCm};
            }
        }
    }
    return marking;
}

struct Found {
    int all{};
    int withinAFrame{};
    double scatter{}; ///< s, largest difference from the median lateness of the foot
};

/// How late each contact of the foot is found that lies well in the clip; those found at all.
std::vector<double> latenessOf(const maker::Truth& truth, maker::Foot foot,
                               const std::vector<Stance>& stances)
{
    const auto found = foot == maker::Foot::Left ? Foot::Left : Foot::Right;
    std::vector<double> late;
    for (const auto& contact : truth.contacts) {
        const bool isWhole =
            contact.contact > 0.2 && contact.contact < truth.frames.back().seconds - 0.2;
        for (const auto& stance : stances) {
            const double by = stance.contact.count() - contact.contact;
            if (contact.foot == foot && isWhole && stance.foot == found && std::abs(by) < 0.1) {
                late.push_back(by);
            }
        }
    }
    return late;
}

Found foundIn(const maker::Truth& truth, double statedCm)
{
    const auto found = findContacts(restlessMarks(truth, statedCm), indexOf(truth), sceneOf(truth));
    REQUIRE(found);
    Found result;
    for (const auto foot : {maker::Foot::Left, maker::Foot::Right}) {
        const auto late = latenessOf(truth, foot, found->stances);
        REQUIRE(late.size() >= 6);
        const double usual = upperMedianOf(late);
        for (const double by : late) {
            ++result.all;
            result.withinAFrame += std::abs(by) < 1.0 / 120.0 ? 1 : 0;
            result.scatter = std::max(result.scatter, std::abs(by - usual));
        }
    }
    return result;
}

} // namespace

TEST_CASE("contacts of unsure marks are set right by each other", "[follow][steps]")
{
    Found together;
    Found singly;
    for (const auto landing :
         {maker::Landing::Rearfoot, maker::Landing::Midfoot, maker::Landing::Forefoot}) {
        for (const unsigned seed : {3U, 8U}) {
            const auto truth = runner(seed, landing);
            const auto unsure = foundIn(truth, 1.5);
            const auto sure = foundIn(truth, 0.3); // taken at their word: each by itself
            CAPTURE(seed, static_cast<int>(landing), unsure.scatter, sure.scatter);
            CHECK(unsure.scatter < 0.010);
            CHECK(sure.scatter > 0.015);
            together.all += unsure.all;
            together.withinAFrame += unsure.withinAFrame;
            singly.withinAFrame += sure.withinAFrame;
        }
    }
    CAPTURE(together.withinAFrame, singly.withinAFrame, together.all);
    CHECK(together.withinAFrame > 1.25 * singly.withinAFrame);
}

TEST_CASE("of two landings each keeps its own contact", "[follow][steps]")
{
    auto truth = runner(3, maker::Landing::Rearfoot);
    truth.frames.resize(170);
    const auto unsure = findContacts(restlessMarks(truth, 1.5), indexOf(truth), sceneOf(truth));
    const auto sure = findContacts(restlessMarks(truth, 0.3), indexOf(truth), sceneOf(truth));
    REQUIRE(unsure);
    REQUIRE(sure);
    CHECK(unsure->stances.size() >= 2);
    CHECK(unsure->stances == sure->stances);
}

namespace {

constexpr double strideSeconds = 0.72;
constexpr double standSeconds = 0.26;

/// A foot that rides the belt at 270 cm/s for 0.26 s and swings forward again; lands at 0.3 s
/// first.
EndMotion steadyFoot(double time)
{
    const double since = std::fmod(time - 0.3 + 10.0 * strideSeconds, strideSeconds);
    if (since < standSeconds) {
        return {.height = 0.0, .rise = 0.0, .slip = 0.0, .along = 35.0 - 270.0 * since};
    }
    const double swing = (since - standSeconds) / (strideSeconds - standSeconds);
    return {.height = 30.0 * std::sin(3.14159 * swing),
            .rise = 0.0,
            .slip = 1.0,
            .along = 35.0 - 270.0 * standSeconds * (1.0 - swing)};
}

} // namespace

TEST_CASE("a landing that is not seen keeps the time and the error it was found with",
          "[follow][steps]")
{
    constexpr std::size_t hidden = 3;
    FootMotion foot;
    foot.groundSpeed = -270.0;
    foot.range = 500.0;
    for (int i = 0; i < 6 * 120; ++i) {
        const double time = i / 120.0;
        const bool isHidden = std::abs(time - (0.3 + strideSeconds * hidden)) < 0.2;
        foot.times.push_back(time);
        foot.heel.push_back(isHidden ? std::nullopt : std::optional(steadyFoot(time)));
        foot.toe.push_back(foot.heel.back());
    }
    std::vector<GroundTime> times;
    for (std::size_t n = 0; n < 7; ++n) {
        const double early = n % 2 == 0 ? 0.01 : -0.01;
        times.push_back(
            {TimedEvent{0.3 + strideSeconds * static_cast<double>(n) - early, 0.03}, std::nullopt});
    }
    const auto settled = likeSteps(foot, times);
    REQUIRE(settled.size() == times.size());
    CHECK(settled[hidden].contact->time == times[hidden].contact->time);
    CHECK(settled[hidden].contact->se == times[hidden].contact->se);
    for (const std::size_t seen : {0U, 1U, 2U, 4U, 5U, 6U}) {
        CHECK(settled[seen].contact->se < 0.01);
        const double apart = settled[seen].contact->time - settled[0].contact->time;
        CHECK(apart == Approx(strideSeconds * static_cast<double>(seen)).margin(0.003));
    }
}
