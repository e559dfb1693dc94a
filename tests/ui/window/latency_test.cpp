// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QCoreApplication>
#include <QElapsedTimer>

#include <algorithm>
#include <iostream>

using namespace latemile::ui;

namespace {

/// Milliseconds from the key press to the frame painted, one a press.
std::vector<double> pressesTo(MarksPage& page, Qt::Key key, int presses)
{
    std::vector<double> taken;
    for (int n = 0; n < presses; ++n) {
        std::int64_t painted = -1;
        const auto watch = QObject::connect(&page.view(), &FrameView::framePainted, &page,
                                            [&](qint64 frame) { painted = frame; });
        QElapsedTimer clock;
        clock.start();
        press(page.view(), key);
        while (painted != page.player().frame().value && clock.elapsed() < 5000) {
            QCoreApplication::processEvents(QEventLoop::AllEvents, 5);
        }
        taken.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
        QObject::disconnect(watch);
    }
    std::ranges::sort(taken);
    return taken;
}

} // namespace

// Hidden, since it measures the machine it runs on: window_test "[latency]" prints the numbers.
TEST_CASE("a key press shows its frame within a blink, forwards and back", "[.][latency]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    page.player().goTo({200});
    (void)waitUntil([&] { return page.player().frame().value == 200; });
    for (const auto& [key, name] :
         {std::pair(Qt::Key_Period, "on"), std::pair(Qt::Key_Comma, "back")}) {
        const auto taken = pressesTo(page, key, 150);
        std::cout << "one frame " << name << ": median " << taken[75] << " ms, 99th of 100 "
                  << taken[148] << " ms\n";
        CHECK(taken[75] < 100);
    }
}
