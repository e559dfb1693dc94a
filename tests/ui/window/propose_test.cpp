// SPDX-License-Identifier: GPL-3.0-or-later
// These run the pose network: a look takes 0.13 s, so the clips are short and of 60 frames a
// second.
#include "core/propose/row_bound.hpp"
#include "core/store/session.hpp"
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/raw_clip.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/marks/contact_finding.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/following.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/marks/proposing.hpp"
#include "ui/marks/running_line.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QProgressBar>
#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <QUndoStack>

#include <algorithm>
#include <cmath>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// The sample's frames 60, 62, ...: two left (near) stances and a right one between.
constexpr auto everySecond = "select='gte(n,60)*not(mod(n,2))'";
constexpr std::int64_t truthFrom = 60;
constexpr std::int64_t truthEvery = 2;

/// The near (left) step whose contact lies nearest to that truth.
StepNumber nearStepAt(ClipDocument& clip, double contact)
{
    for (const Step& step : clip.steps()) {
        if (step.foot == Foot::Left && std::abs(step.contact.count() - contact) < 0.03) {
            return step.number;
        }
    }
    FAIL("no left contact was found near " << contact);
    return {};
}

} // namespace

TEST_CASE("from a raw clip to accepted rows by proposals", "[ui][propose]")
{
    RawClip job(everySecond, 80);
    const auto truth = truthOf("fresh");
    QUndoStack& history = job.window().session()->history();

    // Stopped: what was seen is kept, and it goes on from there.
    job.key(Qt::Key_U);
    CHECK(job.page().proposing().isBusy());
    const auto* share = job.page().findChild<QProgressBar*>(); // a sixth is for finding the runner
    REQUIRE(waitUntil([share] { return share->value() >= 25; }));
    job.page().followPanel().work().stopButton().click();
    job.waitForProposals();
    INFO(job.told());
    CHECK_THAT(job.told(), containing("Stopped"));
    const auto kept = job.count(Origin::Proposed);
    CHECK(kept >= 13); // one frame: nine near landmarks and the far lower leg
    CHECK(kept < 13 * 80);
    job.key(Qt::Key_U);
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("Landmarks proposed on 80 frames"));
    CHECK_THAT(job.told(), containing("leads through the contacts found"));
    CHECK(job.count(Origin::Proposed) == 13 * 80);
    CHECK_FALSE(job.clip().marking().stances.empty());
    CHECK(history.undoText() == "find contacts");
    job.window().undo();
    CHECK(job.clip().marking().stances.empty());
    CHECK(history.undoText() == "propose landmarks");
    job.window().undo();
    CHECK(job.count(Origin::Proposed) == kept);
    history.redo();

    // Both feet of a frame, to be followed from: proposals that need only be accepted.
    const Marking proposed = job.clip().marking();
    job.page().player().goTo({20});
    waitForPicture(job.page());
    job.key(Qt::Key_H);
    for (int foot = 0; foot < 6; ++foot) {
        REQUIRE(job.page().flow().isAskingFeet());
        job.key(Qt::Key_Return);
    }
    CHECK_FALSE(job.page().flow().isAskingFeet());
    CHECK(job.count(Origin::Placed) == 6);
    const MarkKey farToe{{20}, BodySide::Far, Landmark::Toe};
    CHECK(job.clip().marking().find(farToe)->at == proposed.find(farToe)->at);
    for (int foot = 0; foot < 6; ++foot) {
        job.window().undo();
    }
    CHECK(job.clip().marking() == proposed);

    // An event placed while contacts are being found is not found a second time.
    job.key(Qt::Key_G);
    REQUIRE(job.page().contacts().isBusy());
    markEvent(job.page(), 14, Qt::Key_Q); // of the left foot, at 0.72034 s of the truth
    waitForContacts(job.page());
    const auto doubled = job.clip().marking().stances;
    CHECK(std::ranges::count(doubled, Origin::Placed, &Stance::origin) == 1);
    CHECK(std::ranges::count(doubled, Foot::Left, &Stance::foot) == 2);
    job.window().undo(); // found
    job.window().undo(); // placed
    CHECK(job.clip().marking() == proposed);

    // Contacts from proposals, against the rendered truth.
    findContacts(job.page());
    const double start = truthFrom / 120.0;
    const auto first = nearStepAt(job.clip(), 0.72034 - start);
    const auto second = nearStepAt(job.clip(), 1.43379 - start);
    for (const Stance& stance : job.clip().marking().stances) {
        CHECK(stance.origin == Origin::Proposed);
    }
    INFO(job.cell(first.value - 1, 0).toStdString());
    CHECK(job.cell(first.value - 1, 0).contains("proposed, ±"));

    // What to do with an event that was found is told where it is looked at.
    job.window().selection().setPlace(StepInstant{first, Instant::Contact});
    CHECK_THAT(job.hint(), containing("is this the first frame with the left foot on the ground?"));
    CHECK_THAT(job.hint(), containing("step there and press Q"));
    job.key(Qt::Key_A);
    CHECK(job.window().selection().place() == StepInstant{first, Instant::ToeOff});
    CHECK_THAT(job.hint(), containing("the left foot clear of the ground?"));
    CHECK_THAT(job.hint(), containing("step there and press W"));

    // The least sure cell first.
    const auto open = job.page().flow().open();
    CHECK(std::ranges::is_sorted(open, std::greater{}, [&](const StepInstant& place) {
        return job.page().flow().doubt(place).urgency();
    }));
    job.key(Qt::Key_A, Qt::ShiftModifier);

    const auto line = [&] { return runningLine(job.clip(), first, {}); };
    CHECK(waitUntil([&] { return line().contains("not confirmed: Head ahead of shoulder"); }));

    // Before a step is confirmed the shoulder, and any toe asked for, are too unsure for a row.
    const auto before = job.clip().marking();
    job.window().selection().setPlace(StepInstant{first, Instant::Contact});
    job.key(Qt::Key_Return, Qt::ShiftModifier);
    CHECK_THAT(job.told(), containing("a row of proposals is accepted up to"));
    CHECK(job.clip().marking() == before);

    // A coach who puts each point where it truly is, cell by cell.
    for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        const StepInstant place{first, instant};
        job.window().selection().setPlace(place);
        waitForPicture(job.page());
        const auto frame = job.page().flow().frameOf(place);
        REQUIRE(frame);
        for (const auto landmark : job.page().flow().asked(place)) {
            const MarkKey key{*frame, BodySide::Near, landmark};
            const MarkKey there{{truthFrom + truthEvery * frame->value}, BodySide::Near, landmark};
            REQUIRE(job.clip().marking().find(key) != nullptr);
            job.page().flow().choose(key);
            job.page().flow().moveChosen(truePoint(truth, there));
        }
        job.key(Qt::Key_Escape);
        job.key(Qt::Key_Return);
    }
    CHECK(job.cell(first.value - 1, 0).contains("confirmed"));
    CHECK(waitUntil(
        [&] { return line().contains("Foot ahead of hip") && !line().contains("not confirmed"); }));

    // Proposed again without another look: surer, and nearer to the truth at the same instant.
    const auto placed = job.count(Origin::Placed);
    const auto frame = job.page().flow().frameOf({second, Instant::MidStance});
    REQUIRE(frame);
    const MarkKey shoulder{*frame, BodySide::Near, Landmark::Shoulder};
    const Mark was = *job.clip().marking().find(shoulder);
    job.key(Qt::Key_U);
    job.waitForProposals();
    CHECK(job.count(Origin::Placed) == placed);
    const Mark now = *job.clip().marking().find(shoulder);
    CHECK(*now.sePx < 0.6 * *was.sePx);
    const PixelPoint there = truePoint(
        truth, {{truthFrom + truthEvery * frame->value}, BodySide::Near, Landmark::Shoulder});
    CHECK(std::hypot(now.at.u - there.u, now.at.v - there.v) <
          std::hypot(was.at.u - there.u, was.at.v - there.v));

    // Stopped while marks are followed it leaves what is surer than the network alone.
    job.key(Qt::Key_U);
    job.page().followPanel().work().stopButton().click();
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("Stopped"));
    CHECK(*job.clip().marking().find(shoulder) == now);

    // Now the other near step's row is accepted by one key.
    job.window().selection().setPlace(StepInstant{second, Instant::Contact});
    job.key(Qt::Key_Return, Qt::ShiftModifier);
    INFO(job.told());
    CHECK(job.cell(second.value - 1, 0).contains("confirmed"));
    CHECK(job.cell(second.value - 1, 1).contains("confirmed"));

    // Near and far leg exchanged from a frame on, and back.
    job.window().selection().setPlace(std::nullopt);
    job.page().player().goTo({8});
    waitForPicture(job.page());
    const MarkKey knee{{10}, BodySide::Near, Landmark::Knee};
    const Mark nearKnee = *job.clip().marking().find(knee);
    const auto marking = job.clip().marking();
    job.key(Qt::Key_X);
    CHECK(history.undoText() == "exchange near and far leg");
    CHECK(*job.clip().marking().find({{10}, BodySide::Far, Landmark::Knee}) == nearKnee);
    CHECK(job.count(Origin::Placed) == std::ranges::count_if(marking.marks, [](const auto& entry) {
              return entry.second.origin == Origin::Placed;
          }));
    job.window().undo();
    CHECK(job.clip().marking() == marking);
}

TEST_CASE("the first contacts and their cells are there to judge while the rest is looked at",
          "[ui][propose]")
{
    RawClip job("select='gte(n,60)'", 220, 120);
    const auto framesProposed = [&job] { return job.count(Origin::Proposed) / 13; };
    const auto stances = [&job] { return job.clip().marking().stances; };
    job.key(Qt::Key_U);
    REQUIRE((waitUntil([&] { return !stances().empty(); }) ||
             waitUntil([&] { return !stances().empty(); })));
    CHECK(job.page().proposing().isBusy());
    CHECK(framesProposed() < 45); // of 220: a stride, every third frame
    CHECK_THAT(job.told(), containing("Stances proposed"));

    job.key(Qt::Key_A);
    const auto place = job.window().selection().place();
    REQUIRE(place);
    const auto judged = stances()[static_cast<std::size_t>(place->step.value - 1)];
    const auto isMarked = [&] {
        const auto frame = job.page().flow().frameOf(*place);
        const auto& asked = job.page().flow().asked(*place);
        const auto side = job.clip().isNear(judged.foot) ? BodySide::Near : BodySide::Far;
        return frame && std::ranges::all_of(asked, [&](Landmark landmark) {
                   return job.clip().marking().find({*frame, side, landmark}) != nullptr;
               });
    };
    CHECK(waitUntil(isMarked));
    CHECK(job.page().proposing().isBusy());

    // Contacts found in the whole clip move nothing under the eyes of a coach who judges one.
    const auto few = stances().size();
    REQUIRE((waitUntil([&] { return stances().size() > few; }) ||
             waitUntil([&] { return stances().size() > few; })));
    CHECK(framesProposed() < 110);
    const auto now = job.window().selection().place();
    REQUIRE(now);
    CHECK(stances()[static_cast<std::size_t>(now->step.value - 1)].contact == judged.contact);
    job.key(Qt::Key_A);
    CHECK(job.window().selection().place() == StepInstant{now->step, Instant::ToeOff});
    job.page().followPanel().work().stopButton().click();
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("Stopped"));
}

TEST_CASE("cells' frames and all others are one edit; placed and followed marks stay",
          "[ui][propose]")
{
    // The picture ends at the ankles, so that the feet are cut off.
    RawClip job("crop=1280:640:0:0,select='gte(n,88)*not(mod(n,2))'", 40);
    markEvent(job.page(), 4, Qt::Key_Q);
    markEvent(job.page(), 14, Qt::Key_W);
    const MarkKey knee{{4}, BodySide::Near, Landmark::Knee};
    const MarkKey ankle{{4}, BodySide::Near, Landmark::Ankle};
    const Mark placed{{600, 480}, Origin::Placed, {}};
    const Mark followed{{620, 560}, Origin::Followed, 1.5};
    job.clip().replaceMark(knee, placed);
    job.clip().replaceMark(ankle, followed);
    const auto before = job.clip().marking();
    const int edits = job.window().session()->history().count();
    job.key(Qt::Key_U);
    // The first part comes in while the second is still looked at.
    bool wasPart = false;
    const auto isDone = [&] {
        const bool some = job.count(Origin::Proposed) > 0;
        wasPart = wasPart || (some && job.page().proposing().isBusy());
        return !job.page().proposing().isBusy();
    };
    REQUIRE((waitUntil(isDone) || waitUntil(isDone) || waitUntil(isDone)));
    CHECK(wasPart);
    INFO(job.told());
    CHECK_THAT(job.told(), containing("on 40 frames"));
    CHECK(job.page().followPanel().details().join(u' ').contains("edge of the picture"));
    CHECK(*job.clip().marking().find(knee) == placed);
    CHECK(*job.clip().marking().find(ankle) == followed);
    CHECK(job.clip().marking().find({{39}, BodySide::Near, Landmark::Hip}) != nullptr);
    CHECK(job.window().session()->history().count() == edits + 1);
    job.window().undo();
    CHECK(job.clip().marking() == before);
}

TEST_CASE("of a fast clip every other frame is looked at, and the cells' own once there are steps",
          "[ui][propose]")
{
    RawClip job("fps=240,select='gte(n,140)'", 140, 240); // each frame of the sample twice
    job.key(Qt::Key_U);
    job.waitForProposals();
    INFO(job.told());
    REQUIRE_FALSE(job.clip().marking().stances.empty());
    int looked = 0;
    for (std::int64_t number = 0; number < 140; ++number) {
        const MarkKey hip{{number}, BodySide::Near, Landmark::Hip};
        looked += job.clip().marking().find(hip) != nullptr ? 1 : 0;
    }
    CHECK(looked >= 70);
    CHECK(looked < 80);

    // Found again they may fall on other frames.
    findContacts(job.page());
    const auto told = job.told();
    CHECK_THAT(told, containing("Stances proposed"));
    job.waitForProposals();
    CHECK(job.told() == told); // what was not asked for is not told
    int between = 0;
    for (const StepInstant& place : job.page().flow().open()) {
        const auto frame = job.page().flow().frameOf(place);
        REQUIRE(frame);
        between += frame->value % 2 != 0 ? 1 : 0;
        for (const auto landmark : job.page().flow().asked(place)) {
            CHECK(job.clip().marking().find({*frame, BodySide::Near, landmark}) != nullptr);
        }
    }
    CHECK(between > 0);
}

TEST_CASE("what was seen of a clip is there another day, and needs no second look", "[ui][propose]")
{
    RawClip job(everySecond, 20);
    job.key(Qt::Key_U);
    job.waitForProposals();
    REQUIRE(job.count(Origin::Proposed) == 13 * 20);
    const auto proposed = job.clip().marking();
    const auto looks = std::filesystem::path(job.clip().file().string() + ".looks");
    CHECK(waitUntil([&] { return std::filesystem::exists(looks); })); // written behind the window
    job.window().undo();
    job.reopen();
    waitForPicture(job.page());
    CHECK(job.count(Origin::Proposed) == 0);
    job.page().proposing().setResources("/nowhere"); // there is no network to look with
    job.key(Qt::Key_U);
    job.waitForProposals();
    INFO(job.told());
    REQUIRE(job.count(Origin::Proposed) == 13 * 20);
    for (const auto& [key, mark] : proposed.marks) {
        const Mark* again = job.clip().marking().find(key);
        REQUIRE(again != nullptr);
        CHECK(std::hypot(again->at.u - mark.at.u, again->at.v - mark.at.v) < 0.01);
    }
}

TEST_CASE("of a clip with the wrong view all that was seen is kept until the view is set right",
          "[ui][propose]")
{
    RawClip job(everySecond, 20);
    const Scene scene = job.clip().scene();
    Scene wrong = scene;
    wrong.view = View::RightSide;
    wrong.travel = Travel::Right;
    job.clip().replaceScene(wrong);
    job.key(Qt::Key_U);
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("faces left"));
    CHECK(job.count(Origin::Proposed) == 0);
    job.clip().replaceScene(scene);
    job.page().proposing().setResources("/nowhere"); // there is no network to look with again
    job.key(Qt::Key_U);
    job.waitForProposals();
    INFO(job.told());
    CHECK(job.count(Origin::Proposed) == 13 * 20);
}
