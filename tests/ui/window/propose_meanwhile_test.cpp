// SPDX-License-Identifier: GPL-3.0-or-later
// What a coach does while landmarks are proposed and contacts are found along, and what stays of
// it.
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/raw_clip.hpp"
#include "ui/document/commands/propose_marks.hpp"
#include "ui/document/commands/propose_stances.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/marks/contact_finding.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/picture/player.hpp"

#include <QPushButton>
#include <QUndoStack>

#include <algorithm>
#include <cmath>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// 1.6 s of the sample's fresh clip with heels and toes proposed where they truly are, so that
/// contacts are found at once.
class ProposedFeet : public RawClip {
public:
    static constexpr std::int64_t from = 60;
    static constexpr std::int64_t frames = 190;
    ProposedFeet() : RawClip("select='gte(n,60)'", frames, 120)
    {
        const auto truth = truthOf("fresh");
        std::map<MarkKey, Mark> feet;
        for (std::int64_t frame = 0; frame < frames; ++frame) {
            for (const auto side : {BodySide::Near, BodySide::Far}) {
                for (const auto landmark : {Landmark::Heel, Landmark::Toe}) {
                    const auto at = truePoint(truth, {{frame + from}, side, landmark});
                    feet[{{frame}, side, landmark}] = {at, Origin::Proposed, 1.0};
                }
            }
        }
        window().session()->history().push(new ProposeMarks(clip(), feet, 1));
        m_feet = feet;
    }
    [[nodiscard]] const std::vector<Stance>& stances() { return clip().marking().stances; }
    /// The feet as they are so much later, and as they are.
    void moveInTime(std::int64_t by)
    {
        std::map<MarkKey, Mark> moved;
        for (const auto& [key, mark] : m_feet) {
            if (const auto there = m_feet.find({{key.frame.value + by}, key.side, key.landmark});
                there != m_feet.end()) {
                moved[key] = there->second;
            }
        }
        window().session()->history().push(
            new ProposeMarks(clip(), moved, 2, ProposeMarks::Others::Go));
    }

private:
    std::map<MarkKey, Mark> m_feet;
};

bool isAlike(const Stance& a, const Stance& b)
{
    return a.foot == b.foot && std::abs((a.contact - b.contact).count()) < 0.1;
}

bool hasAlike(const std::vector<Stance>& stances, const Stance& one)
{
    return std::ranges::any_of(stances,
                               [&one](const Stance& other) { return isAlike(one, other); });
}

} // namespace

TEST_CASE("a stance that the coach removed does not come back unasked", "[ui]")
{
    ProposedFeet job;
    auto& contacts = job.page().contacts();
    contacts.findAlong(true);
    REQUIRE(job.stances().size() >= 3);
    const auto all = job.stances();
    job.window().selection().setPlace(StepInstant{StepNumber{2}, Instant::Contact});
    contacts.reject(StepNumber{2});
    CHECK_FALSE(hasAlike(job.stances(), all[1]));
    contacts.findAlong(true);
    CHECK_FALSE(hasAlike(job.stances(), all[1]));
    CHECK(job.stances().size() == all.size() - 1);
    contacts.find(); // asked for, it does
    CHECK(hasAlike(job.stances(), all[1]));
}

TEST_CASE("stances the coach looks at or has worked on stay as they are when found again", "[ui]")
{
    ProposedFeet job;
    auto& contacts = job.page().contacts();
    contacts.findAlong(true);
    const auto found = job.stances();
    REQUIRE(found.size() >= 4);
    // As an earlier search, of less of the clip, might have put them; one it made up.
    auto earlier = found;
    for (Stance& stance : earlier) {
        stance.contact += Seconds{0.02};
    }
    const auto index = static_cast<std::size_t>(
        std::ranges::find_if(earlier, [](const Stance& one) { return one.toeOff.has_value(); }) -
        earlier.begin());
    auto& history = job.window().session()->history();
    history.push(new ProposeStances(job.clip(), earlier));
    REQUIRE(job.stances() == earlier);
    const auto worked = (index + 1) % earlier.size();
    const auto frame = job.clip().index().firstAtOrAfter(earlier[worked].contact);
    job.clip().replaceMark(MarkKey{frame, BodySide::Near, Landmark::Hip},
                           Mark{{600, 300}, Origin::Placed, {}});
    job.window().selection().setPlace(
        StepInstant{StepNumber{static_cast<int>(index) + 1}, Instant::Contact});
    contacts.findAlong(true);
    REQUIRE(job.stances().size() == found.size());
    for (std::size_t n = 0; n < found.size(); ++n) {
        CAPTURE(n, index, worked);
        const bool stays = n == index || n == worked;
        CHECK(job.stances()[n].contact == (stays ? earlier[n].contact : found[n].contact));
    }
}

TEST_CASE("a stance that a later search has elsewhere is not taken for removed", "[ui]")
{
    ProposedFeet job;
    auto& contacts = job.page().contacts();
    contacts.findAlong(false);
    const auto first = job.stances();
    REQUIRE(first.size() >= 3);
    job.moveInTime(18); // 0.15 s
    contacts.findAlong(false);
    REQUIRE(job.stances() != first);
    job.moveInTime(0);
    contacts.findAlong(true);
    for (const Stance& stance : first) {
        CAPTURE(stance.contact.count());
        CHECK(hasAlike(job.stances(), stance));
    }
}

TEST_CASE("contact and toe-off that are hardly sure are not taken with a cell or a row", "[ui]")
{
    ProposedFeet job;
    job.page().contacts().findAlong(true);
    auto unsure = job.stances();
    REQUIRE(unsure.size() >= 3);
    const auto at = static_cast<std::size_t>(
        std::ranges::find_if(unsure, [](const Stance& one) { return one.toeOff.has_value(); }) -
        unsure.begin());
    const StepNumber step{static_cast<int>(at) + 1};
    unsure[at].se = Seconds{0.040};
    auto& history = job.window().session()->history();
    history.push(new ProposeStances(job.clip(), unsure));
    const auto before = job.clip().marking();
    auto& flow = job.page().flow();
    for (const auto accept : {&MarkingFlow::confirm, &MarkingFlow::confirmStep}) {
        job.window().selection().setPlace(StepInstant{step, Instant::MidStance});
        waitForPicture(job.page());
        (flow.*accept)();
        CHECK_THAT(job.told(), containing("unsure by ± 40 ms"));
        CHECK(job.clip().marking() == before);
        CHECK(job.window().selection().place() == StepInstant{step, Instant::Contact});
    }
    // Looked at, they are the coach's; sure ones go with the cell.
    job.key(Qt::Key_A);
    job.key(Qt::Key_A);
    CHECK(job.stances()[at].origin == Origin::Placed);
    job.window().undo();
    unsure[at].se = Seconds{0.008};
    history.push(new ProposeStances(job.clip(), unsure));
    job.window().selection().setPlace(StepInstant{step, Instant::MidStance});
    waitForPicture(job.page());
    flow.confirm();
    CHECK(job.stances()[at].origin == Origin::Placed);
}

TEST_CASE("contacts asked for where proposing was stopped: its cells are looked at, no more",
          "[ui][propose]")
{
    RawClip job("select='gte(n,60)'", 220, 120);
    job.key(Qt::Key_U);
    const auto isFinding = [&] { return job.page().contacts().isBusy(); };
    REQUIRE((waitUntil(isFinding) || waitUntil(isFinding)));
    job.page().followPanel().work().stopButton().click();
    REQUIRE_FALSE(job.page().proposing().isBusy());
    const auto proposed = job.count(Origin::Proposed);
    job.key(Qt::Key_G);
    waitForContacts(job.page());
    REQUIRE_FALSE(job.clip().marking().stances.empty());
    job.waitForProposals();
    CHECK(job.count(Origin::Proposed) > proposed);
    CHECK(job.count(Origin::Proposed) < 13 * 80);
}

TEST_CASE("Stop while contacts are found along ends proposing too", "[ui][propose]")
{
    RawClip job("select='gte(n,60)'", 220, 120);
    job.key(Qt::Key_U);
    const auto isFinding = [&] { return job.page().contacts().isBusy(); };
    REQUIRE((waitUntil(isFinding) || waitUntil(isFinding)));
    const auto proposed = job.count(Origin::Proposed);
    CHECK(proposed < 13 * 45);
    job.page().followPanel().work().stopButton().click();
    CHECK_FALSE(job.page().contacts().isBusy());
    CHECK_FALSE(job.page().proposing().isBusy());
    CHECK_THAT(job.told(), containing("Stopped"));
    CHECK(job.count(Origin::Proposed) == proposed);
    CHECK(job.clip().marking().stances.empty());
}

TEST_CASE(
    "another box: nothing of the runner before stays; legs exchanged meanwhile stay exchanged",
    "[ui][propose]")
{
    RawClip job("select='gte(n,60)*not(mod(n,2))'", 24);
    job.key(Qt::Key_U);
    job.waitForProposals();
    REQUIRE(job.count(Origin::Proposed) == 13 * 24);

    // Somebody else's: a mark the runner's proposals do not replace, and a step.
    auto& history = job.window().session()->history();
    const MarkKey other{{5}, BodySide::Far, Landmark::Ear};
    history.push(new ProposeMarks(job.clip(), {{other, {{200, 200}, Origin::Proposed, 4.0}}}, 99));
    const Stance step{Foot::Right, Seconds{0.05}, Seconds{0.3}, Origin::Proposed, Seconds{0.01}};
    history.push(new ProposeStances(job.clip(), {step}));
    job.page().player().goTo({10});
    waitForPicture(job.page());
    job.page().proposing().askBox();
    job.page().proposing().useBox({500, 120, 260, 530});
    job.waitForProposals();
    INFO(job.told());
    CHECK(job.count(Origin::Proposed) == 13 * 24);
    CHECK(job.clip().marking().find(other) == nullptr);
    CHECK_FALSE(hasAlike(job.clip().marking().stances, step));

    // Proposing anew from a placed mark follows it for some seconds.
    const MarkKey hip{{10}, BodySide::Near, Landmark::Hip};
    auto placed = *job.clip().marking().find(hip);
    placed.origin = Origin::Placed;
    job.clip().replaceMark(hip, placed);
    job.page().player().goTo({3});
    waitForPicture(job.page());
    const MarkKey nearKnee{{10}, BodySide::Near, Landmark::Knee};
    const MarkKey farKnee{{10}, BodySide::Far, Landmark::Knee};
    const auto nearAt = job.clip().marking().find(nearKnee)->at;
    const auto farAt = job.clip().marking().find(farKnee)->at;
    job.key(Qt::Key_U);
    REQUIRE(job.page().proposing().isBusy());
    job.key(Qt::Key_X);
    job.waitForProposals();
    INFO(job.told());
    const auto now = job.clip().marking().find(nearKnee)->at;
    CHECK(std::hypot(now.u - farAt.u, now.v - farAt.v) <
          std::hypot(now.u - nearAt.u, now.v - nearAt.v));
}
