// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/document/commands/set_capture_rate.hpp"
#include "ui/filming/filming_page.hpp"
#include "ui/picture/frame_view.hpp"

#include <QPushButton>
#include <QTest>

using namespace latemile;
using namespace latemile::ui;

namespace {

QPushButton& buttonNamed(const QWidget& page, const QString& text)
{
    for (QPushButton* button : page.findChildren<QPushButton*>()) {
        if (button->text() == text) {
            return *button;
        }
    }
    FAIL("no button " << text.toStdString());
    throw 0;
}

QPoint onScreen(const FrameView& view, PixelPoint at)
{
    return (view.map().toDevice(at) / view.devicePixelRatioF()).toPoint();
}

} // namespace

TEST_CASE("a clip added on the page is copied into the session, and undo takes it out", "[ui]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("filming"));
    auto& page = dynamic_cast<FilmingPage&>(*window.page());
    const QString file =
        QStringLiteral(LATEMILE_SOURCE_DIR "/sample_clips/ilse-varga/2026-09-26/clips/late.mp4");
    page.addFiles({file});
    REQUIRE(waitUntil([&] { return window.session()->clips().size() == 2; }));
    ClipDocument& added = *window.session()->clips().back();
    REQUIRE(waitUntil([&] { return added.isOpen() || !added.fault().isEmpty(); }));
    // ffprobe 5.1.9 counts 672 frames of 1280 x 720 in each of the sample's side clips.
    CHECK(added.feed().facts().frames == 672);
    CHECK(added.clip().condition == "fatigued");
    // Another file of that name was there: both are kept.
    CHECK(added.clip().file == "clips/late-2.mp4");
    window.undo();
    CHECK(window.session()->clips().size() == 1);
    window.redo();
    CHECK(window.session()->clips().size() == 2);
}

TEST_CASE("a scale line drawn on the picture stands where it was drawn, as one step back", "[ui]")
{
    WindowFixture fixture;
    fixture.makeUnmarked();
    MainWindow& window = fixture.openWindow(QStringLiteral("filming"));
    auto& page = dynamic_cast<FilmingPage&>(*window.page());
    ClipDocument& clip = *window.session()->clips().front();
    REQUIRE(waitUntil([&] { return !page.view().pictureSize().isEmpty(); }));
    const auto before = clip.scene();
    const PixelPoint a{300, 200};
    const PixelPoint b{900, 210};
    buttonNamed(page, QStringLiteral("Draw scale line")).click();
    FrameView& view = page.view();
    QTest::mousePress(&view, Qt::LeftButton, {}, onScreen(view, a));
    QTest::mouseMove(&view, onScreen(view, {600, 205}));
    QTest::mouseMove(&view, onScreen(view, b));
    QTest::mouseRelease(&view, Qt::LeftButton, {}, onScreen(view, b));
    REQUIRE(clip.scene().scale);
    // A pointer stands on whole screen pixels, of which each is 1.8 of the picture here.
    CHECK(clip.scene().scale->a.u == Approx(a.u).margin(2));
    CHECK(clip.scene().scale->b.u == Approx(b.u).margin(2));
    CHECK(clip.scene().scale->b.v == Approx(b.v).margin(2));
    window.undo();
    CHECK(clip.scene() == before);
}

TEST_CASE("a capture rate of a quarter speed keeps every event on its frame", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    ClipDocument& clip = *window.session()->clips().front();
    const auto frame = clip.index().firstAtOrAfter(clip.marking().stances[4].contact);
    const Seconds contact = clip.marking().stances[4].contact;
    window.session()->history().push(new SetCaptureRate(clip, 480.0));
    REQUIRE(waitUntil([&] { return clip.isOpen() && !clip.isReading(); }));
    CHECK(clip.index().firstAtOrAfter(clip.marking().stances[4].contact) == frame);
    CHECK(clip.marking().stances[4].contact.count() == Approx(contact.count() / 4));
}
