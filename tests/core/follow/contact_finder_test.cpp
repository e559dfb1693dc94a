// SPDX-License-Identifier: GPL-3.0-or-later
// Contacts against the exact events of rendered runners, from true paths of heel and toe with the
// noise that following leaves, and from a clip followed in earnest.
#include "core/follow/contact_finder.hpp"

#include "core/follow/follow.hpp"
#include "sample_clips/maker/render_clip.hpp"
#include "tests/catch.hpp"
#include "tests/core/follow/followed_clip.hpp"
#include "tests/core/follow/modelled_truth.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

using namespace latemile;
using namespace latemile::tests;

namespace {

Foot footOf(maker::Foot foot)
{
    return foot == maker::Foot::Left ? Foot::Left : Foot::Right;
}

/// Heel and toe of both feet on every frame, 1 mm off: followed paths differ by less from frame to
/// frame.
Marking pathsOf(const maker::Truth& truth)
{
    std::mt19937 random(9);
    std::normal_distribution<double> normal(0.0, 0.1 * truth.pixelsPerCm);
    Marking marking;
    for (std::size_t i = 0; i < truth.frames.size(); ++i) {
        const FrameNumber frame{static_cast<std::int64_t>(i)};
        for (const auto landmark : {Landmark::Heel, Landmark::Toe}) {
            const std::size_t place = landmark == Landmark::Heel ? 7 : 8;
            for (const auto side : {BodySide::Near, BodySide::Far}) {
                auto at =
                    (side == BodySide::Near ? truth.frames[i].left : truth.frames[i].right)[place];
                at.u += normal(random);
                at.v += normal(random);
                marking.marks[{frame, side, landmark}] = Mark{at, Origin::Followed, 0.6};
            }
        }
    }
    return marking;
}

maker::Truth fourSecondsOf(unsigned seed)
{
    maker::ClipRecipe recipe;
    recipe.runner.seed = seed;
    recipe.video.duration = 4.0;
    return maker::truthWithoutClip(recipe).value();
}

struct Errors {
    std::vector<double> contacts; ///< s, found less true
    std::vector<double> durations;
    int missed{};
    int invented{};
};

Errors errorsOf(const maker::Truth& truth, const std::vector<Stance>& found)
{
    Errors errors;
    std::size_t matched = 0;
    for (const auto& contact : truth.contacts) {
        const auto same = std::find_if(found.begin(), found.end(), [&](const Stance& stance) {
            return stance.foot == footOf(contact.foot) &&
                   std::abs(stance.contact.count() - contact.contact) < 0.08;
        });
        if (same == found.end()) {
            ++errors.missed;
            continue;
        }
        ++matched;
        errors.contacts.push_back(same->contact.count() - contact.contact);
        if (same->toeOff) {
            errors.durations.push_back((*same->toeOff - same->contact).count() -
                                       (contact.toeOff - contact.contact));
        }
    }
    // The truth lists stances with both events inside; one that the clip's ends cut off may be
    // found besides.
    for (const auto& stance : found) {
        const bool isCut = !stance.toeOff || stance.contact.count() < 0.1 ||
                           stance.contact.count() > truth.frames.back().seconds - 0.4;
        errors.invented += isCut ? 0 : 1;
    }
    errors.invented = std::max(0, errors.invented - static_cast<int>(matched));
    return errors;
}

double mean(const std::vector<double>& values)
{
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

} // namespace

TEST_CASE("contacts are found to a frame at every speed, landing and frame rate", "[follow]")
{
    struct Row {
        double speed;
        double stepRate;
        maker::Landing landing;
        double rate;
    };
    constexpr std::array rows{Row{2.2, 160.0, maker::Landing::Rearfoot, 120.0},
                              Row{2.7, 168.0, maker::Landing::Midfoot, 120.0},
                              Row{3.3, 174.0, maker::Landing::Forefoot, 120.0},
                              Row{4.0, 182.0, maker::Landing::Rearfoot, 240.0},
                              Row{2.4, 164.0, maker::Landing::Forefoot, 240.0},
                              Row{3.0, 170.0, maker::Landing::Midfoot, 60.0}};
    std::size_t within = 0;
    std::size_t all = 0;
    for (const auto& row : rows) {
        maker::ClipRecipe recipe;
        recipe.runner = {
            .seed = 31, .speed = row.speed, .stepRate = row.stepRate, .landing = row.landing};
        recipe.video.captureRate = row.rate;
        recipe.video.duration = 5.0;
        const auto truth = maker::truthWithoutClip(recipe).value();
        const auto found = findContacts(pathsOf(truth), indexOf(truth), sceneOf(truth));
        REQUIRE(found);
        const auto errors = errorsOf(truth, found->stances);
        CAPTURE(row.speed, row.rate, static_cast<int>(row.landing), errors.contacts);
        CHECK(errors.missed == 0);
        CHECK(errors.invented == 0);
        CHECK(std::abs(mean(errors.contacts)) < 0.005);
        CHECK(std::abs(mean(errors.durations)) < 0.010);
        // A frame at 120 frames/s, or of the clip where its frames are farther apart.
        const double frame = 1.0 / std::min(row.rate, 120.0);
        for (const double error : errors.contacts) {
            within += std::abs(error) <= frame ? 1U : 0U;
            ++all;
        }
    }
    CAPTURE(within, all);
    CHECK(static_cast<double>(within) >= 0.95 * static_cast<double>(all));
}

TEST_CASE("over ground a foot stands still and is found alike", "[follow]")
{
    maker::ClipRecipe recipe;
    recipe.runner = {.seed = 33, .speed = 3.0, .overground = true};
    recipe.video.duration = 2.0;
    const auto truth = maker::truthWithoutClip(recipe).value();
    const auto found = findContacts(pathsOf(truth), indexOf(truth), sceneOf(truth));
    REQUIRE(found);
    const auto errors = errorsOf(truth, found->stances);
    CHECK(errors.missed == 0);
    for (const double error : errors.contacts) {
        CHECK(std::abs(error) < 0.010);
    }
}

TEST_CASE("a belt that nobody stated, or a camera that turns along, is told", "[follow]")
{
    maker::ClipRecipe recipe;
    recipe.video.duration = 3.0;
    const auto truth = maker::truthWithoutClip(recipe).value();
    auto scene = sceneOf(truth);
    scene.beltSpeed.reset();
    const auto found = findContacts(pathsOf(truth), indexOf(truth), scene);
    REQUIRE(found);
    REQUIRE_FALSE(found->remarks.empty());
    CHECK_THAT(found->remarks.front(), containing("no belt is stated"));
    CAPTURE(found->remarks.front());
    CHECK((found->remarks.front().find("2.6") != std::string::npos ||
           found->remarks.front().find("2.7") != std::string::npos)); // the belt's 2.70 m/s
}

TEST_CASE("placed events are kept, and teach what the signs are off by", "[follow]")
{
    const auto truth = fourSecondsOf(35);
    auto marking = pathsOf(truth);
    const auto alone = findContacts(marking, indexOf(truth), sceneOf(truth)).value();
    // A coach who sees every contact of both feet 12 ms later than it is.
    for (std::size_t i = 0; i < 6; ++i) {
        const auto& contact = truth.contacts[i];
        marking.stances.push_back({footOf(contact.foot), Seconds(contact.contact + 0.012),
                                   Seconds(contact.toeOff + 0.012), Origin::Placed, std::nullopt});
    }
    const auto taught = findContacts(marking, indexOf(truth), sceneOf(truth)).value();
    CHECK(taught.stances.size() + 6 == alone.stances.size());
    const auto later = taught.stances.back().contact - alone.stances.back().contact;
    CHECK(later.count() > 0.005);
    CHECK(later.count() < 0.014);
}

TEST_CASE("without heel and toe, and from behind, contacts are left to the coach", "[follow]")
{
    maker::ClipRecipe recipe;
    recipe.video.duration = 1.0;
    const auto truth = maker::truthWithoutClip(recipe).value();
    auto scene = sceneOf(truth);
    const auto nothing = findContacts({}, indexOf(truth), scene);
    REQUIRE_FALSE(nothing);
    CHECK(nothing.error().sentence.find("heel and toe") != std::string::npos);
    scene.view = View::Rear;
    const auto rear = findContacts(pathsOf(truth), indexOf(truth), scene);
    REQUIRE_FALSE(rear);
    CHECK(rear.error().kind == Error::Kind::Unsupported);
}

TEST_CASE("from one marked step to the contacts of all others", "[follow]")
{
    const FollowedClip clip(smallRunner(36));
    auto reader = ClipReader::open(clip.folder / "clip.mp4").value();
    auto marking = clip.oneStepOfEachFoot(1, 0.0, 1);
    const auto followed = followMarks(reader, marking).value();
    marking.marks.insert(followed.marks.begin(), followed.marks.end());
    const auto found = findContacts(marking, reader.index(), clip.scene);
    REQUIRE(found);
    const auto errors = errorsOf(clip.truth, found->stances);
    CHECK(errors.missed == 0);
    CHECK(errors.invented == 0);
    CAPTURE(errors.contacts);
    for (const double error : errors.contacts) {
        CHECK(std::abs(error) <= 1.5 / 120.0); // at 960 x 540 pixels
    }
}

TEST_CASE("a foot that the other leg hides for a moment in mid-stance does not land twice",
          "[follow]")
{
    const auto truth = fourSecondsOf(31);
    auto marking = pathsOf(truth);
    for (const auto& contact : truth.contacts) {
        const double middle = (contact.contact + contact.toeOff) / 2;
        std::erase_if(marking.marks, [&](const auto& entry) {
            const auto& frame = truth.frames[static_cast<std::size_t>(entry.first.frame.value)];
            return contact.foot == maker::Foot::Right && entry.first.side == BodySide::Far &&
                   std::abs(frame.seconds - middle) < 0.05;
        });
    }
    const auto found = findContacts(marking, indexOf(truth), sceneOf(truth));
    REQUIRE(found);
    const auto errors = errorsOf(truth, found->stances);
    CHECK(errors.missed == 0);
    CHECK(errors.invented == 0);
}

TEST_CASE("a foot that jumps to where it is found again has not landed earlier for it", "[follow]")
{
    const auto truth = fourSecondsOf(31);
    auto marking = pathsOf(truth);
    // Early in each swing the far foot is left behind, farther and farther, and then found again;
    // twice, so that more frames are too fast than the fastest fiftieth of all.
    constexpr double fromToeOff = 0.05;
    constexpr double during = 0.12;
    constexpr double leftBehindCm = 30.0;
    for (auto& [key, mark] : marking.marks) {
        const double time = truth.frames[static_cast<std::size_t>(key.frame.value)].seconds;
        for (const auto& contact : truth.contacts) {
            const double share = (time - contact.toeOff - fromToeOff) / during;
            if (contact.foot == maker::Foot::Right && key.side == BodySide::Far && share > 0.0 &&
                share < 1.0) {
                mark.at.u += leftBehindCm * std::fmod(2.0 * share, 1.0) *
                             truth.pixelsPerCm; // she runs to the left
            }
        }
    }
    const auto found = findContacts(marking, indexOf(truth), sceneOf(truth));
    REQUIRE(found);
    const auto errors = errorsOf(truth, found->stances);
    CAPTURE(errors.contacts);
    CHECK(errors.missed == 0);
    REQUIRE_FALSE(errors.contacts.empty());
    for (const double error : errors.contacts) {
        CHECK(std::abs(error) < 1.0 / 120);
    }
}

TEST_CASE("marks on every other frame of a fast clip are enough", "[follow]")
{
    maker::ClipRecipe recipe;
    recipe.runner.seed = 31;
    recipe.video.captureRate = 240.0;
    recipe.video.duration = 4.0;
    const auto truth = maker::truthWithoutClip(recipe).value();
    auto marking = pathsOf(truth);
    std::erase_if(marking.marks,
                  [](const auto& entry) { return entry.first.frame.value % 2 != 0; });
    const auto found = findContacts(marking, indexOf(truth), sceneOf(truth));
    REQUIRE(found);
    const auto errors = errorsOf(truth, found->stances);
    CHECK(errors.missed == 0);
    CHECK(errors.invented == 0);
    REQUIRE_FALSE(errors.contacts.empty());
    for (const double error : errors.contacts) {
        CHECK(std::abs(error) < 1.0 / 120); // a frame of those that are marked
    }
}
