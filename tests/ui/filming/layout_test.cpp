// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/filming/filming_fixture.hpp"
#include "tests/ui/window/layout_checks.hpp"
#include "ui/filming/work_side.hpp"

#include <QCoreApplication>

using namespace latemile;
using namespace latemile::ui;

namespace {

void checkLayout(MainWindow& window, const char* what)
{
    QCoreApplication::processEvents();
    INFO(what << " at " << window.width() << " x " << window.height());
    CHECK(clippedIn(window).join(u'\n').toStdString() == "");
    CHECK(overlapsIn(window).join(u'\n').toStdString() == "");
    CHECK(namelessIn(window).join(u'\n').toStdString() == "");
}

} // namespace

TEST_CASE("no part of the Filming page clips a label or lays controls over each other",
          "[ui][layout]")
{
    const QSize size = GENERATE(QSize(1280, 800), QSize(1920, 1080));
    FilmingCoach coach;
    FilmingPage& page = coach.openNewDay();
    MainWindow& window = coach.window();
    window.resize(size);
    checkLayout(window, "set-up");
    coach.drop({sampleClip("2026-10-24", "fresh.mp4")}, 1);
    coach.key(Qt::Key_G);
    for (const auto part :
         {FilmingPage::Clip, FilmingPage::Run, FilmingPage::SceneLines, FilmingPage::Trust}) {
        page.side().setPart(part);
        checkLayout(window, "a part of the description");
    }
    REQUIRE(window.size() == size);
}
