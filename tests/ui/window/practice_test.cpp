// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/practice/practice_page.hpp"
#include "ui/window/side_pages.hpp"

#include <QCoreApplication>
#include <QEvent>
#include <QRegularExpression>

using namespace latemile;
using namespace latemile::ui;

TEST_CASE("practice tells how far marks and events lie from the truth, and keeps nothing", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    const Session before = window.session()->session();
    window.showPractice();
    PracticePage& practice = *window.sidePages().practice();
    REQUIRE(practice.session() != nullptr);
    const auto folder = practice.session()->folder();
    REQUIRE(waitUntil([&] { return practice.session()->clips().front()->isOpen(); }));
    MarksPage& page = *practice.marks();
    const auto truth = truthOf("fresh");
    const TwoSteps steps = firstTwoSteps(truth);
    markEvent(page, steps.leftContact, Qt::Key_Q);
    markEvent(page, steps.leftToeOff, Qt::Key_W);
    // An event marked on its frame lies within half a frame of the exact time: 4.2 ms at 120/s.
    CHECK(practice.eventsTold().contains(QStringLiteral("Left contact")));
    auto times = QRegularExpression(QStringLiteral("(\\d+) ms")).globalMatch(practice.eventsTold());
    while (times.hasNext()) {
        CHECK(times.next().captured(1).toInt() <= 5);
    }

    press(page.view(), Qt::Key_N);
    REQUIRE(page.flow().pending());
    const std::string landmark(nameOf(*page.flow().pending()));
    const PixelPoint exact = nearPoint(truth, page.player().frame().value, landmark);
    placeByKeys(page, {exact.u + 3, exact.v + 4}); // 3, 4, 5
    const auto told =
        QRegularExpression(QStringLiteral("([0-9.]+) px")).match(practice.marksTold());
    REQUIRE(told.hasMatch());
    // The crosshair moves by tenths of a pixel.
    CHECK(told.captured(1).toDouble() == Approx(5.0).margin(0.11));

    window.undo();
    CHECK(practice.marksTold().contains(QStringLiteral("No mark")));
    practice.setTruthShown(true);
    CHECK(window.session()->session() == before);
    emit practice.left();
    CHECK(window.pageId() == QStringLiteral("marks"));
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    CHECK_FALSE(std::filesystem::exists(folder));
}
