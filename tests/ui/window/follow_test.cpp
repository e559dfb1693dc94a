// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session.hpp"
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/unmarked_clip.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/document/commands/place_mark.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/following.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/path_upkeep.hpp"
#include "ui/marks/stance_ruler.hpp"
#include "ui/marks/step_panel.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <QUndoStack>

#include <algorithm>
#include <cmath>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// Two seconds of the sample, not marked yet.
class ShortClip : public UnmarkedClip {
public:
    ShortClip()
        : UnmarkedClip([](WindowFixture& fixture) {
              fixture.makeUnmarked();
              fixture.shorten(216);
          })
    {
    }
    [[nodiscard]] const nlohmann::json& truth() const { return m_truth; }
    void undoAll()
    {
        while (window().session()->history().canUndo()) {
            window().undo();
        }
    }
    void waitForFollowing()
    {
        REQUIRE(waitUntil([this] { return !page().following().isBusy(); }));
    }

private:
    nlohmann::json m_truth = truthOf("fresh");
};

/// Two left steps and the right one between; the landmarks of the first of them.
void markFirstStep(ShortClip& job)
{
    const auto& contacts = job.truth()["contacts"];
    for (const std::size_t n : {std::size_t{2}, std::size_t{3}, std::size_t{4}}) {
        const bool left = contacts[n]["side"] == "left";
        markEvent(job.page(), contacts[n]["first_frame_of_contact"], left ? Qt::Key_Q : Qt::Key_O);
        markEvent(job.page(), contacts[n]["first_frame_after_toe_off"],
                  left ? Qt::Key_W : Qt::Key_P);
    }
    REQUIRE(job.clip().steps().size() == 3);
    job.window().selection().setPlace(StepInstant{StepNumber{1}, Instant::Contact});
    while (job.page().flow().place() && job.page().flow().place()->step == StepNumber{1}) {
        const auto landmark = job.page().flow().pending();
        REQUIRE(landmark);
        placeByKeys(job.page(), nearPoint(job.truth(), job.page().player().frame().value,
                                          std::string(nameOf(*landmark))));
    }
}

/// Ankle, heel and toe of both feet on one frame, as the window asks for them.
void markFeet(ShortClip& job, std::int64_t frame)
{
    job.page().player().goTo({frame});
    waitForPicture(job.page());
    job.key(Qt::Key_H);
    int placed = 0;
    while (const auto key = job.page().flow().pendingKey()) {
        if (!job.page().flow().isAskingFeet()) {
            break;
        }
        REQUIRE(key->frame.value == frame);
        placeByKeys(job.page(), truePoint(job.truth(), *key));
        REQUIRE(++placed <= 6);
    }
    CHECK(placed == 6);
}

} // namespace

TEST_CASE("marks of one step, followed, stand in the cells of another and are accepted by the row",
          "[ui][follow]")
{
    ShortClip job;
    markFirstStep(job);
    const Marking before = job.clip().marking();
    job.key(Qt::Key_F);
    CHECK(job.page().following().isBusy());
    job.waitForFollowing();
    INFO(job.page().followPanel().told().toStdString());
    CHECK(job.page().followPanel().told().contains("Landmarks followed: 5"));
    CHECK(job.window().session()->history().undoText() == "follow marks");
    CHECK(job.count(Origin::Followed) > 500);
    for (const auto& [key, mark] : before.marks) {
        CHECK(*job.clip().marking().find(key) == mark);
    }
    INFO(job.cell(2, 0).toStdString());
    CHECK(job.cell(2, 0).contains("followed, ±"));

    // A stride later: against the positions the clip was rendered from.
    const auto frame = job.page().flow().frameOf({StepNumber{3}, Instant::Contact});
    REQUIRE(frame);
    for (const auto landmark : {Landmark::Hip, Landmark::Knee, Landmark::Ankle}) {
        const MarkKey key{*frame, BodySide::Near, landmark};
        const Mark* mark = job.clip().marking().find(key);
        REQUIRE(mark != nullptr);
        const PixelPoint truth = truePoint(job.truth(), key);
        REQUIRE(mark->sePx);
        CAPTURE(nameOf(landmark), *mark->sePx);
        CHECK(std::hypot(mark->at.u - truth.u, mark->at.v - truth.v) < 3.5 * *mark->sePx);
    }

    SECTION("the least sure cell comes first; a row accepted is the coach's word and is read")
    {
        const auto urgencyAt = [&](const StepInstant& place) {
            return job.page().flow().doubt(place).urgency();
        };
        const auto open = job.page().flow().open();
        REQUIRE(open.size() >= 2);
        CHECK(std::ranges::is_sorted(open, std::greater{}, urgencyAt));
        job.window().selection().setPlace(std::nullopt);
        job.key(Qt::Key_N);
        CHECK(job.page().flow().place() == open.front());

        job.window().selection().setPlace(StepInstant{StepNumber{3}, Instant::Contact});
        job.key(Qt::Key_Return, Qt::ShiftModifier);
        CHECK(job.cell(2, 0).contains("confirmed"));
        CHECK(job.cell(2, 1).contains("confirmed"));
        CHECK(job.window().session()->history().undoText() == "confirm step 3");
        // Six landmarks were asked for in that row and six alone became the coach's.
        CHECK(job.count(Origin::Placed) == std::ssize(before.marks) + 6);
        REQUIRE(waitUntil([&] { return !job.clip().isReading(); }));
        const Reading* ahead = readingOf(job.clip(), "foot_ahead", 3);
        REQUIRE(ahead != nullptr);
        // Truth by a perfect click in the same picture; scales are up to 6 % apart (see
        // marking_test.cpp), and the hip's own error adds to it.
        const double truth =
            job.truth()["contacts"][4]["image_at_first_frame"]["foot_ahead_of_hip_cm"];
        CHECK(*ahead->value == Approx(truth).margin(2.5));

        job.window().undo(); // the row
        job.window().undo(); // all followed marks at once
        CHECK(job.clip().marking() == before);
        job.undoAll();
        CHECK(job.clip().marking() == Marking{});
    }
    SECTION("a corrected mark is placed; following again keeps it and replaces the rest")
    {
        const MarkKey key{*frame, BodySide::Near, Landmark::Knee};
        const MarkKey next{{frame->value + 1}, BodySide::Near, Landmark::Knee};
        job.window().selection().setPlace(StepInstant{StepNumber{3}, Instant::Contact});
        job.page().flow().choose(key);
        job.key(Qt::Key_Right);
        const Mark corrected = *job.clip().marking().find(key);
        CHECK(corrected.origin == Origin::Placed);
        const Mark neighbour = *job.clip().marking().find(next);
        job.key(Qt::Key_F);
        job.waitForFollowing();
        CHECK(*job.clip().marking().find(key) == corrected);
        CHECK(*job.clip().marking().find(next) != neighbour);
    }
    SECTION("a corrected mark takes its neighbours along at once, and an undo brings them back")
    {
        const MarkKey key{*frame, BodySide::Near, Landmark::Knee};
        const MarkKey next{{frame->value + 1}, BodySide::Near, Landmark::Knee};
        const auto isAtRest = [&] { return job.page().following().upkeep().isAtRest(); };
        const Marking followed = job.clip().marking();
        job.window().selection().setPlace(StepInstant{StepNumber{3}, Instant::Contact});
        job.page().flow().choose(key);
        constexpr int steps = 4;
        for (int i = 0; i < steps; ++i) {
            job.key(Qt::Key_Right);
        }
        REQUIRE(waitUntil(isAtRest));
        CHECK(job.clip().marking().find(key)->origin == Origin::Placed);
        const Mark* moved = job.clip().marking().find(next);
        REQUIRE(moved != nullptr);
        CHECK(moved->origin == Origin::Followed);
        CHECK(moved->at.u - followed.find(next)->at.u == Approx(steps).margin(1.0));
        // Other landmarks and other steps are left alone.
        const MarkKey ankle{next.frame, BodySide::Near, Landmark::Ankle};
        CHECK(*job.clip().marking().find(ankle) == *followed.find(ankle));
        const MarkKey earlier{{frame->value - 60}, BodySide::Near, Landmark::Knee};
        CHECK(*job.clip().marking().find(earlier) == *followed.find(earlier));

        while (job.window().session()->history().undoText() != "follow marks") {
            job.window().undo();
        }
        REQUIRE(waitUntil(isAtRest));
        for (const auto& [at, mark] : followed.marks) {
            const Mark* now = job.clip().marking().find(at);
            REQUIRE(now != nullptr);
            REQUIRE(now->origin == mark.origin);
            REQUIRE(std::hypot(now->at.u - mark.at.u, now->at.v - mark.at.v) < 1e-6);
        }
        job.window().undo();
        REQUIRE(waitUntil(isAtRest));
        CHECK(job.count(Origin::Followed) == 0);
    }
}

TEST_CASE("following that is stopped leaves everything as it was", "[ui][follow]")
{
    ShortClip job;
    markFirstStep(job);
    const Marking before = job.clip().marking();
    const int edits = job.window().session()->history().count();
    job.key(Qt::Key_F);
    job.page().followPanel().work().stopButton().click();
    CHECK_FALSE(job.page().following().isBusy());
    CHECK(job.page().followPanel().told().contains("stopped"));
    // The work stands in line: once the second is through, the first has had its chance.
    job.key(Qt::Key_F);
    job.waitForFollowing();
    CHECK(job.window().session()->history().count() == edits + 1);
    job.window().undo();
    CHECK(job.clip().marking() == before);
}

TEST_CASE("following without a placed mark says what to do", "[ui][follow]")
{
    ShortClip job;
    job.key(Qt::Key_F);
    CHECK_FALSE(job.page().following().isBusy());
    CHECK(job.page().followPanel().told().contains("place the landmarks of one step first"));
    job.key(Qt::Key_G);
    CHECK(job.page().followPanel().told().contains("mark heel and toe"));
    job.key(Qt::Key_A, Qt::ShiftModifier);
    CHECK(job.page().followPanel().told().contains("find contacts first"));
    CHECK_FALSE(job.window().session()->history().canUndo());
}

TEST_CASE("contacts found from both feet are proposals until accepted", "[ui][follow]")
{
    ShortClip job;
    // A foot on the ground, both in the air, and the other foot down.
    for (const std::int64_t frame : {95, 125, 145}) {
        markFeet(job, frame);
    }
    job.key(Qt::Key_F);
    job.waitForFollowing();
    const Marking followed = job.clip().marking();
    job.key(Qt::Key_G);
    INFO(job.page().followPanel().told().toStdString());
    const auto stances = job.clip().marking().stances;
    REQUIRE(stances.size() >= 3);
    for (const Stance& stance : stances) {
        CHECK(stance.origin == Origin::Proposed);
        CHECK(stance.se);
    }
    // The left contact the coach stood on, against the rendered truth (0.72034 s).
    const double truth = job.truth()["contacts"][2]["contact_s"];
    const auto found = std::ranges::find_if(stances, [&](const Stance& stance) {
        return stance.foot == Foot::Left && std::abs(stance.contact.count() - truth) < 0.03;
    });
    REQUIRE(found != stances.end());

    // One after the other, and one removed.
    const auto count = stances.size();
    job.window().selection().setPlace(StepInstant{StepNumber{1}, Instant::Contact});
    job.key(Qt::Key_A); // its toe-off is looked at too
    CHECK(job.page().flow().place() == StepInstant{StepNumber{1}, Instant::ToeOff});
    CHECK(job.clip().marking().stances[0].origin == Origin::Proposed);
    job.key(Qt::Key_A);
    CHECK(job.clip().marking().stances[0].origin == Origin::Placed);
    REQUIRE(job.page().flow().place());
    CHECK(job.page().flow().place()->step == StepNumber{2});
    job.key(Qt::Key_Delete, Qt::ControlModifier);
    CHECK(job.clip().marking().stances.size() == count - 1);
    CHECK(job.clip().marking().stances[1].origin == Origin::Proposed);
    job.window().undo();
    job.window().undo();

    // By a double click on its bar on the ruler, laid out as stance_ruler.cpp has it: 88 pixels of
    // titles to the left, 8 free ones to the right, the left foot's bar around 44.
    const auto at = static_cast<std::size_t>(found - stances.begin());
    StanceRuler& ruler = job.page().ruler();
    const double end = job.clip().index().times().back().count();
    REQUIRE(found->toeOff);
    const double middle = (found->contact + *found->toeOff).count() / 2.0;
    const QPoint point(static_cast<int>(88 + middle / end * (ruler.width() - 8 - 88)), 44);
    QTest::mouseDClick(&ruler, Qt::LeftButton, {}, point);
    CHECK(job.clip().marking().stances[at].origin == Origin::Placed);
    job.window().undo();

    // All at once.
    job.key(Qt::Key_A, Qt::ShiftModifier);
    CHECK(std::ranges::all_of(job.clip().marking().stances, [](const Stance& stance) {
        return stance.origin == Origin::Placed && !stance.se;
    }));
    job.window().undo(); // accepted
    job.window().undo(); // found
    CHECK(job.clip().marking() == followed);
    job.undoAll();
    CHECK(job.clip().marking() == Marking{});
}
