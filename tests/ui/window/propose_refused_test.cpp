// SPDX-License-Identifier: GPL-3.0-or-later
// Clips that nothing can be proposed for at once: nobody, somebody upside down, two people, no
// network; and the box round the runner that is asked for.
#include "tests/catch.hpp"
#include "tests/ui/window/raw_clip.hpp"
#include "ui/picture/frame_view.hpp"

#include <QTest>
#include <QUndoStack>

using namespace latemile;
using namespace latemile::ui;

TEST_CASE("without a runner a box is asked for, which the keys can set and leave", "[ui][propose]")
{
    RawClip job("drawbox=color=gray:t=fill,select='lt(n,20)'", 20);
    job.key(Qt::Key_U);
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("No runner was found in the picture"));
    REQUIRE(job.page().proposing().isAskingBox());
    job.key(Qt::Key_Right);
    job.key(Qt::Key_Down, Qt::ShiftModifier);
    job.key(Qt::Key_Return);
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("No runner was found in the box"));
    REQUIRE(job.page().proposing().isAskingBox());
    job.key(Qt::Key_Escape);
    CHECK_FALSE(job.page().proposing().isAskingBox());
    CHECK_FALSE(job.window().session()->history().canUndo());
}

TEST_CASE("of two people the one in the box dragged round her is proposed for", "[ui][propose]")
{
    // The runner's part of the picture once more, 420 px to the left.
    RawClip job("split[a][b];[b]crop=340:720:480:0[c];[a][c]overlay=60:0,select='gte(n,140)'", 20);
    job.key(Qt::Key_U);
    job.waitForProposals();
    CHECK_THAT(job.told(), containing("More than one person"));
    REQUIRE(job.page().proposing().isAskingBox());
    FrameView& view = job.page().view();
    const auto on = [&view](PixelPoint at) {
        return (view.map().toDevice(at) / view.devicePixelRatioF()).toPoint();
    };
    QTest::mousePress(&view, Qt::LeftButton, {}, on({80, 120}));
    QTest::mouseMove(&view, on({200, 400}));
    QTest::mouseMove(&view, on({340, 650}));
    QTest::mouseRelease(&view, Qt::LeftButton, {}, on({340, 650}));
    job.waitForProposals();
    INFO(job.told());
    CHECK_FALSE(job.page().proposing().isAskingBox());
    const MarkKey hip{{10}, BodySide::Near, Landmark::Hip};
    REQUIRE(job.clip().marking().find(hip) != nullptr);
    CHECK(job.clip().marking().find(hip)->at.u < 400);

    // Asked again, here or for the next clip, the box stands where it was taken.
    job.page().proposing().askBox();
    job.key(Qt::Key_Return);
    job.waitForProposals();
    INFO(job.told());
    CHECK(job.clip().marking().find(hip)->at.u < 400);
}

TEST_CASE("what proposals cannot be made of is said in one sentence", "[ui][propose]")
{
    SECTION("a runner on her head")
    {
        RawClip job("vflip,hflip,select='gte(n,140)'", 20);
        job.key(Qt::Key_U);
        job.waitForProposals();
        CHECK_THAT(job.told(), containing("upside down"));
        CHECK_FALSE(job.page().proposing().isAskingBox());
    }
    SECTION("no network, a rear view, nothing to exchange")
    {
        RawClip job("select='gte(n,140)'", 20);
        job.page().proposing().setResources("/nowhere");
        job.key(Qt::Key_U);
        job.waitForProposals();
        CHECK_THAT(job.told(), containing("Proposals are off"));
        CHECK_THAT(job.told(), containing("by hand"));
        job.key(Qt::Key_X);
        CHECK_THAT(job.told(), containing("no proposed or followed mark"));
        Scene rear = job.clip().scene();
        rear.view = View::Rear;
        job.clip().replaceScene(rear);
        job.key(Qt::Key_U);
        CHECK_FALSE(job.page().proposing().isBusy());
        CHECK_THAT(job.told(), containing("filmed from the side"));
        CHECK_FALSE(job.window().session()->history().canUndo());
    }
}
