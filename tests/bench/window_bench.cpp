// SPDX-License-Identifier: GPL-3.0-or-later
// Times the window as a coach feels it: from the key press to the frame painted and handed to the
// screen, on a clip of 1080p at 240 frames/s.
#include "core/store/session.hpp"
#include "tests/bench/bench_clip.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/theme/theme.hpp"
#include "ui/window/grab.hpp"
#include "ui/window/main_window.hpp"

#include <QApplication>
#include <QElapsedTimer>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <cstdio>

using namespace latemile;
using namespace latemile::ui;

namespace {

constexpr int keyRepeatMilliseconds = 16; ///< twice as fast as a keyboard repeats

/// A session of the clip with six steps marked, so that the step table asks for its small pictures.
void writeBenchSession(const std::filesystem::path& folder)
{
    std::filesystem::create_directories(folder / "clips");
    std::filesystem::copy_file(benchClip(), folder / "clips" / "bench.mp4");
    SessionClip clip;
    clip.file = "clips/bench.mp4";
    clip.condition = "fresh";
    for (int n = 0; n < 6; ++n) {
        const Seconds contact{0.05 + 0.3 * n};
        clip.marking.stances.push_back({.foot = n % 2 == 0 ? Foot::Left : Foot::Right,
                                        .contact = contact,
                                        .toeOff = contact + Seconds{0.22},
                                        .origin = Origin::Placed,
                                        .se = {}});
    }
    Session session;
    session.date = "2026-08-29";
    session.clips.push_back(std::move(clip));
    if (!writeSession(session, folder)) {
        stop("The session of the bench cannot be written.");
    }
}

/// Lets the window work until this frame is painted and everything was handed to the screen.
void waitForFrame(MarksPage& page, std::int64_t frame)
{
    bool painted = false;
    const auto watch = QObject::connect(&page.view(), &FrameView::framePainted, &page,
                                        [&](qint64 shown) { painted |= shown == frame; });
    QElapsedTimer clock;
    clock.start();
    while (!painted && clock.elapsed() < 10000) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
    }
    QObject::disconnect(watch);
    if (!painted) {
        stop("A frame was never painted.");
    }
}

void jumpTo(MarksPage& page, std::int64_t frame)
{
    page.player().goTo({frame});
    waitForFrame(page, frame);
}

/// Milliseconds a press; after each, `rest` passes in which the window goes on working.
std::vector<double> presses(MarksPage& page, Qt::Key key, int count, int rest)
{
    std::vector<double> taken;
    for (int n = 0; n < count; ++n) {
        const std::int64_t next = page.player().frame().value + (key == Qt::Key_Period ? 1 : -1);
        QElapsedTimer clock;
        clock.start();
        QTest::keyClick(&page.view(), key);
        waitForFrame(page, next);
        taken.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
        QTest::qWait(std::max(0, rest - static_cast<int>(clock.elapsed())));
    }
    return taken;
}

void tell(const char* what, const std::vector<double>& taken)
{
    std::printf("%-58s median %6.2f ms   p99 %7.2f ms   most %7.2f ms\n", what,
                quantile(taken, 0.5), quantile(taken, 0.99), quantile(taken, 1));
    std::fflush(stdout);
}

void benchSteps(MainWindow& window, MarksPage& page)
{
    // As a coach meets it: the clip was opened a moment ago and the table's pictures are on the
    // way.
    jumpTo(page, 200);
    QTest::qWait(300);
    tell("one frame on, small pictures still being made",
         presses(page, Qt::Key_Period, 150, keyRepeatMilliseconds));
    tell("one frame back, small pictures still being made",
         presses(page, Qt::Key_Comma, 150, keyRepeatMilliseconds));
    settle(window, 30000);
    tell("one frame on", presses(page, Qt::Key_Period, 200, keyRepeatMilliseconds));
    tell("one frame back", presses(page, Qt::Key_Comma, 350, keyRepeatMilliseconds));
    jumpTo(page, 240);
    settle(window, 30000);
    tell("one frame on, no rest between presses", presses(page, Qt::Key_Period, 200, 0));
    jumpTo(page, 400);
    settle(window, 30000);
    tell("one frame back, no rest between presses", presses(page, Qt::Key_Comma, 300, 0));
}

void benchJumps(MainWindow& window, MarksPage& page)
{
    std::vector<double> taken;
    for (int n = 0; n < 30; ++n) {
        const std::int64_t frame = (n * 197 + 31) % frames;
        QElapsedTimer clock;
        clock.start();
        jumpTo(page, frame);
        taken.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
    }
    tell("a jump anywhere, no rest between", taken);
    settle(window, 30000);
}

} // namespace

int main(int argc, char* argv[])
{
    QStandardPaths::setTestModeEnabled(true);
    QCoreApplication::setOrganizationName(QStringLiteral("Latemile"));
    QCoreApplication::setApplicationName(QStringLiteral("latemile-bench"));
    QApplication application(argc, argv);
    applyTheme(application, ThemeChoice::Light);
    QTemporaryDir folder;
    const auto session =
        std::filesystem::path(folder.path().toStdString()) / "bench" / "2026-08-29";
    writeBenchSession(session);
    MainWindow window;
    window.resize(1440, 900);
    window.show();
    if (!window.open(session)) {
        stop("The session of the bench cannot be opened.");
    }
    window.showPage(QStringLiteral("marks"));
    auto& page = dynamic_cast<MarksPage&>(*window.page());
    page.view().setFocus();
    // Keys reach a window that has the focus, which nobody gives it where no desktop runs.
    window.activateWindow();
    if (!QTest::qWaitForWindowActive(&window)) {
        stop("The window does not get the keyboard.");
    }
    while (!window.session()->clips().front()->isOpen()) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
    }
    std::printf("1080p, 240 frames/s, H.264; window of %d x %d on %s\n", window.width(),
                window.height(), qPrintable(QGuiApplication::platformName()));
    benchSteps(window, page);
    benchJumps(window, page);
    return 0;
}
