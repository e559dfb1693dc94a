// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/filming/filming_fixture.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/picture/frame_view.hpp"

#include <QPushButton>
#include <QSignalSpy>
#include <QVBoxLayout>

#include <filesystem>

using namespace latemile::ui;

TEST_CASE("work shows itself when it takes over half a second, with a button to stop", "[ui]")
{
    QWidget around;
    auto* bar = new WorkBar(&around);
    (new QVBoxLayout(&around))->addWidget(bar);
    around.show();
    QSignalSpy stopped(bar, &WorkBar::stopWanted);
    bar->setWork(QStringLiteral("copying"), QStringLiteral("Copying run.mp4"), 10);
    CHECK_FALSE(bar->isVisible());
    REQUIRE(waitUntil([&] { return bar->isVisible(); }));
    CHECK(textsOf(around).contains(QStringLiteral("Copying run.mp4")));
    bar->stopButton().click();
    REQUIRE(stopped.count() == 1);
    CHECK(stopped.first().first().toString() == QStringLiteral("copying"));
    bar->endWork(QStringLiteral("copying"));
    CHECK_FALSE(bar->isVisible());
}

TEST_CASE("opening a clip can be stopped and begun again", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstVisit();
    ClipDocument& clip = coach.clip();
    clip.openAgain();
    clip.feed().stopOpening();
    REQUIRE(waitUntil([&] { return !clip.fault().isEmpty() || clip.isOpen(); }));
    if (!clip.isOpen()) {
        CHECK(clip.fault().contains(QStringLiteral("stopped")));
    }
    clip.openAgain();
    REQUIRE(waitUntil([&] { return clip.isOpen(); }));
}

TEST_CASE("a clip whose file went away is opened again by the button below the message", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    ClipDocument& clip = coach.clip();
    const auto file = clip.file();
    const auto away = file.parent_path() / "away.mp4";
    std::filesystem::rename(file, away);
    clip.openAgain();
    REQUIRE(waitUntil([&] { return !clip.fault().isEmpty(); }));
    const auto buttons = page.view().findChildren<QPushButton*>();
    REQUIRE(buttons.size() == 1);
    CHECK(buttons.front()->isVisible());
    CHECK(buttons.front()->text() == QStringLiteral("Open again"));
    std::filesystem::rename(away, file);
    buttons.front()->click();
    REQUIRE(waitUntil([&] { return clip.isOpen() && !page.view().pictureSize().isEmpty(); }));
    CHECK_FALSE(buttons.front()->isVisible());
}
