// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/refilms/refilm_plots.hpp"
#include "ui/refilms/refilms_maker.hpp"
#include "ui/refilms/refilms_page.hpp"
#include "ui/refilms/refilms_table.hpp"

#include <QDateEdit>
#include <QFile>

using namespace latemile;
using namespace latemile::ui;

TEST_CASE("a day filmed from the other side is left out and says so", "[ui]")
{
    WindowFixture fixture;
    fixture.addLaterVisits();
    const auto later = fixture.sessionFolder().parent_path() / "2026-09-26";
    auto session = readSession(later).value();
    for (SessionClip& clip : session.clips) {
        clip.scene.view = View::RightSide;
    }
    REQUIRE(writeSession(session, later));
    MainWindow& window = fixture.openWindow(QStringLiteral("refilms"));
    auto& page = dynamic_cast<RefilmsPage&>(*window.page());
    REQUIRE(waitUntil([&] { return !page.maker().isBusy(); }));
    REQUIRE(page.maker().days().size() == 3);
    CHECK_FALSE(page.maker().days()[1].fresh);
    CHECK(page.maker().days()[1].fault.contains(QStringLiteral("right side")));
    CHECK(page.maker().days()[2].fresh);
}

TEST_CASE("the day of the next re-film is kept, and undone by its name", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("refilms"));
    auto& page = dynamic_cast<RefilmsPage&>(*window.page());
    CHECK(page.nextDate().date() == QDate(2026, 9, 26)); // four weeks after 29 August
    page.nextDate().setDate(QDate(2026, 10, 3));
    CHECK(window.session()->about().nextRefilm == "2026-10-03");
    REQUIRE(window.session()->saver().saveNow());
    CHECK(readSession(fixture.sessionFolder())->nextRefilm == "2026-10-03");
    window.undo();
    CHECK(page.nextDate().date() == QDate(2026, 9, 26));
}

TEST_CASE("the re-films page shows all three visits and what came of the cue", "[ui]")
{
    WindowFixture fixture;
    fixture.addLaterVisits();
    MainWindow& window = fixture.openWindow(QStringLiteral("refilms"));
    auto& page = dynamic_cast<RefilmsPage&>(*window.page());
    REQUIRE(waitUntil([&] { return !page.maker().isBusy(); }));
    REQUIRE(page.maker().days().size() == 3);
    CHECK(page.plots().count() == 6);
    CHECK(page.table().rowCount() == 12);
    for (const auto& day : page.maker().days()) {
        INFO(day.date);
        CHECK(day.fault.toStdString() == "");
        CHECK(day.fresh.has_value());
        CHECK(day.fatigued.has_value());
    }
    const auto file = fixture.sessionFolder() / "refilms.csv";
    REQUIRE(page.exportTo(QString::fromStdString(file.string())));
    QFile csv(QString::fromStdString(file.string()));
    REQUIRE(csv.open(QIODevice::ReadOnly));
    const QString text = QString::fromUtf8(csv.readAll());
    for (const char* date : {"2026-08-29", "2026-09-26", "2026-10-24"}) {
        CHECK(text.contains(QStringLiteral("fatigued,") + QString::fromLatin1(date)));
    }
}
