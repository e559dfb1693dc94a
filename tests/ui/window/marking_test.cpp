// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

using namespace latemile;
using namespace latemile::ui;

TEST_CASE("two steps marked by the keyboard alone read what the clip was made from", "[ui]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    ClipDocument& clip = *window.session()->clips().front();
    const auto truth = truthOf("fresh");
    const TwoSteps steps = firstTwoSteps(truth);

    markEvent(page, steps.leftContact, Qt::Key_Q);
    markEvent(page, steps.leftToeOff, Qt::Key_W);
    markEvent(page, steps.rightContact, Qt::Key_O);
    markEvent(page, steps.rightToeOff, Qt::Key_P);
    REQUIRE(clip.steps().size() == 2);
    CHECK(clip.steps()[0].foot == Foot::Left);

    markOpenCells(page, truth);
    CHECK(page.flow().open().empty());
    REQUIRE(waitUntil([&] { return !clip.isReading() && readingOf(clip, "foot_ahead", 1); }));

    // Truth, measured in the same picture by a perfect click: `image_at_first_frame`. Its scale is
    // that of the near hip, the coach's that of the pole behind: up to 6 % apart.
    for (const auto& contact : truth["contacts"]) {
        if (contact["first_frame_of_contact"] == steps.leftContact) {
            const double ahead = contact["image_at_first_frame"]["foot_ahead_of_hip_cm"];
            CHECK(*readingOf(clip, "foot_ahead", 1)->value == Approx(ahead).epsilon(0.12));
            const double knee = contact["image_at_first_frame"]["knee_flexion_deg"];
            CHECK(*readingOf(clip, "knee_flex_contact", 1)->value == Approx(knee).margin(1.5));
            const double time = contact["contact_time_ms"];
            CHECK(*readingOf(clip, "contact_time", 1)->value == Approx(time).margin(8.4));
        }
    }

    const Marking marked = clip.marking();
    SECTION("undo to the start leaves nothing, redo brings everything back")
    {
        while (window.session()->history().canUndo()) {
            press(page, Qt::Key_Z, Qt::ControlModifier);
        }
        CHECK(clip.marking() == Marking{});
        while (window.session()->history().canRedo()) {
            press(page, Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
        }
        CHECK(clip.marking() == marked);
    }
    SECTION("closed and opened again, the marks are there")
    {
        REQUIRE(window.close());
        fixture.closeWindow();
        MainWindow& again = fixture.openWindow(QStringLiteral("marks"));
        const Marking& kept = again.session()->clips().front()->marking();
        REQUIRE(kept.stances.size() == marked.stances.size());
        CHECK(kept.marks == marked.marks);
        CHECK(kept.stances[1].toeOff->count() == Approx(marked.stances[1].toeOff->count()));
    }
}

TEST_CASE("nudges in a row are one step back and named as a coach would", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    ClipDocument& clip = *window.session()->clips().front();
    window.selection().setPlace(StepInstant{StepNumber{3}, Instant::Contact});
    const auto frame = page.flow().frameOf({StepNumber{3}, Instant::Contact});
    REQUIRE(frame);
    const MarkKey key{*frame, BodySide::Near, Landmark::Knee};
    REQUIRE(clip.marking().find(key) != nullptr);
    const PixelPoint before = clip.marking().find(key)->at;
    page.flow().choose(key);
    press(page.view(), Qt::Key_Right);
    press(page.view(), Qt::Key_Right);
    press(page.view(), Qt::Key_Up, Qt::ShiftModifier);
    CHECK(clip.marking().find(key)->at.u == Approx(before.u + 2));
    CHECK(clip.marking().find(key)->at.v == Approx(before.v - 0.1));
    CHECK(window.session()->history().undoText() == "move knee, step 3 contact");
    window.undo();
    CHECK(clip.marking().find(key)->at == before);
}

TEST_CASE("a landmark that is not visible is asked for no more, also after reopening", "[ui]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    const TwoSteps steps = firstTwoSteps(truthOf("fresh"));
    markEvent(page, steps.leftContact, Qt::Key_Q);
    markEvent(page, steps.leftToeOff, Qt::Key_W);
    press(page.view(), Qt::Key_N);
    REQUIRE(page.flow().pending());
    const Landmark first = *page.flow().pending();
    press(page.view(), Qt::Key_V);
    CHECK(page.flow().pending() != first);
    const auto unseen = window.session()->clips().front()->marking().unseen;
    REQUIRE(unseen.size() == 1);
    REQUIRE(window.session()->saver().saveNow());
    const auto kept = readSession(fixture.sessionFolder());
    REQUIRE(kept);
    CHECK(kept->clips[0].marking.unseen == unseen);
}

TEST_CASE("a toe-off without a contact before it is refused with a hint", "[ui]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    markEvent(page, 20, Qt::Key_W);
    CHECK(window.session()->clips().front()->marking().stances.empty());
    CHECK_FALSE(window.session()->history().canUndo());
}

TEST_CASE("the picture ends on the frame asked for last, also when that one was held", "[ui]")
{
    // A far frame was still being decoded when a held one was asked for and shown; then the far
    // one came and stood under the marks of the other. The last question must win.
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    ClipDocument& clip = *window.session()->clips().front();
    std::int64_t shown = -1;
    QObject::connect(&page.player(), &Player::frameShown, &page,
                     [&](const Frame& frame) { shown = frame.number.value; });
    page.player().goTo({1});
    REQUIRE(waitUntil([&] { return shown == 1 && !clip.isBusy(); }));
    page.player().goTo({500});
    page.player().goTo({1});
    REQUIRE(waitUntil([&] { return !clip.isBusy(); }));
    CHECK(shown == 1);
}
