// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/library.hpp"
#include "ui/athletes/record_work.hpp"
#include "ui/athletes/screening_dialog.hpp"
#include "ui/page/elided_label.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/sheet_page/sheet_page.hpp"
#include "ui/window/caution_line.hpp"
#include "ui/window/session_bar.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSignalSpy>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// The dialog that is open; a missing one fails the test.
template <class Dialog>
Dialog& opened(QWidget& window)
{
    auto* dialog = window.findChild<Dialog*>();
    REQUIRE(dialog != nullptr);
    return *dialog;
}

void addAthleteFolder(const std::filesystem::path& library, const char* code, const char* name,
                      const char* filmed, const char* next)
{
    std::filesystem::create_directories(library / code / filmed);
    Athlete athlete;
    athlete.code = code;
    athlete.name = name;
    REQUIRE(writeAthlete(athlete, library / code / "athlete.json"));
    Session session;
    session.date = filmed;
    session.nextRefilm = next;
    REQUIRE(writeSession(session, library / code / filmed));
}

} // namespace

TEST_CASE("a session is ready for the sheet when six near steps of each clip are confirmed", "[ui]")
{
    WindowFixture fixture;
    const auto folder = fixture.sessionFolder();
    const auto toDo = [&folder] { return sessionsOf(folder.parent_path()).front().toDo; };
    CHECK(toDo() == "ready for the sheet");

    // What was proposed or followed beyond these steps is no work left to do.
    auto session = readSession(folder).value();
    auto& late = *std::ranges::find(session.clips, "fatigued", &SessionClip::condition);
    const auto confirmed = late.marking;
    late.marking.marks[{{1}, BodySide::Near, Landmark::Ear}] = {{300, 100}, Origin::Proposed, 4.0};
    REQUIRE(writeSession(session, folder));
    CHECK(toDo() == "ready for the sheet");

    for (auto& [key, mark] : late.marking.marks) {
        mark.origin = Origin::Proposed;
    }
    REQUIRE(writeSession(session, folder));
    CHECK(toDo() == "confirm 6 steps more of the fatigued clip");

    late.marking = confirmed;
    for (auto& stance : late.marking.stances) {
        stance.origin = Origin::Proposed;
    }
    REQUIRE(writeSession(session, folder));
    CHECK(toDo() == "confirm 6 steps more of the fatigued clip");
}

TEST_CASE("a record handed over in the window comes back in another library", "[ui][hand_over]")
{
    QTemporaryDir folder;
    const std::filesystem::path here = folder.filePath(QStringLiteral("here")).toStdString();
    const std::filesystem::path there = folder.filePath(QStringLiteral("there")).toStdString();
    const std::filesystem::path zip = folder.filePath(QStringLiteral("record.zip")).toStdString();
    addAthleteFolder(here, "ZZ-9", "Ada Moor", "2026-08-01", "2026-12-24");
    std::filesystem::create_directories(there);
    AthletesPage page;
    QString told;
    QObject::connect(&page.records(), &RecordWork::failed, [&](const QString& why) { told = why; });
    page.setLibrary(here);
    QSignalSpy over(&page.records(), &RecordWork::handedOver);
    page.records().handOver(here / "ZZ-9", zip);
    REQUIRE(over.wait());
    page.setLibrary(there);
    REQUIRE(page.athletes().isEmpty());
    QSignalSpy in(&page.records(), &RecordWork::tookIn);
    page.records().takeIn(zip, there);
    REQUIRE(in.wait());
    REQUIRE(page.athletes().list().count() == 1);
    CHECK(page.athletes().list().item(0)->text().startsWith(QStringLiteral("Ada Moor")));
    QSignalSpy failed(&page.records(), &RecordWork::failed);
    page.records().takeIn(zip, there);
    REQUIRE(failed.wait());
    CHECK(told.contains(QStringLiteral("has a folder ZZ-9 already")));
}

TEST_CASE("athletes are found by name and by code, and listed by who is due next", "[ui]")
{
    QTemporaryDir folder;
    const std::filesystem::path library = folder.path().toStdString();
    addAthleteFolder(library, "ZZ-9", "Ada Moor", "2026-08-01", "2026-12-24");
    addAthleteFolder(library, "BB-2", "Bo Lund", "2026-08-10", "");
    AthletesPage page;
    page.setLibrary(library);
    REQUIRE(page.athletes().list().count() == 2);
    CHECK(page.athletes().list().item(0)->text().startsWith(QStringLiteral("Ada Moor")));
    page.athletes().order().setCurrentIndex(1);
    // Four weeks after 10 August is 7 September: before Christmas.
    CHECK(page.athletes().list().item(0)->text().startsWith(QStringLiteral("Bo Lund")));
    CHECK(page.athletes().list().item(0)->text().contains(QStringLiteral("7 Sep 2026")));
    page.athletes().search().setText(QStringLiteral("zz-"));
    REQUIRE(page.athletes().list().count() == 1);
    page.setNamesHidden(true);
    CHECK(page.athletes().list().item(0)->text().startsWith(QStringLiteral("ZZ-9")));
}

TEST_CASE("a re-film is due from its day on", "[ui]")
{
    const QDate day(2026, 9, 26);
    CHECK(dueText(day, QDate(2026, 9, 25)).startsWith(QStringLiteral("next")));
    CHECK(dueText(day, day).contains(QStringLiteral("due")));
    CHECK(nextRefilmOf("2026-08-29", "") == day); // 28 days on
    CHECK(nextRefilmOf("2026-08-29", "2026-10-01") == QDate(2026, 10, 1));
}

TEST_CASE("a red flag is told to the coach, changes the sheet, and can be undone", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("sheet"));
    auto& page = dynamic_cast<SheetPage&>(*window.page());
    REQUIRE(waitUntil([&] { return page.maker().content().has_value(); }));
    CHECK(page.maker().content()->cues.size() == 2);
    auto* caution = window.findChild<CautionLine*>();
    CHECK(caution->isHidden());

    window.askBeforeFilming();
    auto& dialog = opened<ScreeningDialog>(window);
    dialog.findChildren<QCheckBox*>().front()->setChecked(true);
    dialog.accept();
    CHECK_FALSE(caution->isHidden());
    CHECK(caution->text().contains(QStringLiteral("chest pain")));
    REQUIRE(waitUntil(
        [&] { return page.maker().content() && !page.maker().content()->seeClinician.empty(); }));
    CHECK(page.maker().content()->cues.empty());
    CHECK(readSession(fixture.sessionFolder())->screening->flags ==
          std::vector<std::string>{"chest_pain"});
    window.undo();
    CHECK(caution->isHidden());
}

TEST_CASE("no sheet leaves without consent, and the consent asked for is kept", "[ui]")
{
    WindowFixture fixture;
    const auto athleteFile = fixture.sessionFolder().parent_path() / "athlete.json";
    auto athlete = readAthlete(athleteFile).value();
    athlete.consent.reset();
    REQUIRE(writeAthlete(athlete, athleteFile));
    MainWindow& window = fixture.openWindow(QStringLiteral("sheet"));
    auto& page = dynamic_cast<SheetPage&>(*window.page());
    REQUIRE(waitUntil([&] { return page.maker().content().has_value(); }));
    const auto file = fixture.sessionFolder() / "sheet.pdf";
    CHECK_FALSE(page.exportTo(QString::fromStdString(file.string())));
    CHECK_FALSE(std::filesystem::exists(file));
    athlete.consent =
        Consent{.givenBy = "Ilse", .asGuardian = false, .date = "2026-08-29", .until = {}};
    window.session()->replaceAthlete(athlete);
    CHECK(page.exportTo(QString::fromStdString(file.string())));
    CHECK(readAthlete(athleteFile)->consent == athlete.consent);
}

TEST_CASE("the key that hides names puts the code on the sheet too", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("sheet"));
    auto& page = dynamic_cast<SheetPage&>(*window.page());
    REQUIRE(waitUntil([&] { return page.maker().content().has_value(); }));
    CHECK(page.maker().content()->athlete == "Ilse Varga");
    press(page, Qt::Key_F8);
    REQUIRE(waitUntil(
        [&] { return page.maker().content() && page.maker().content()->athlete == "IV-01"; }));
}

TEST_CASE("a new session takes over what the coach settled at the last one", "[ui]")
{
    WindowFixture fixture;
    auto session = readSession(fixture.sessionFolder()).value();
    session.measures = {"contact_time", "foot_ahead"};
    session.cues = {"stay_tall"};
    REQUIRE(writeSession(session, fixture.sessionFolder()));
    const auto folder = sessionOfToday(fixture.sessionFolder().parent_path());
    REQUIRE(folder);
    const auto next = readSession(*folder).value();
    CHECK(next.measures == session.measures);
    CHECK(next.cues == session.cues);
    CHECK(next.coach == session.coach);
    CHECK_FALSE(next.screening);
    CHECK(next.clips.empty());
}

TEST_CASE("a cue that only the numbers suggested goes on to the next visit too", "[ui]")
{
    WindowFixture fixture;
    const auto folder = sessionOfToday(fixture.sessionFolder().parent_path());
    REQUIRE(folder);
    CHECK(readSession(fixture.sessionFolder())->cues.empty());
    CHECK(readSession(*folder)->cues.size() == 2);
}

TEST_CASE("a name of any length gives way in the head and never widens the window", "[ui]")
{
    WindowFixture fixture;
    const auto file = fixture.sessionFolder().parent_path() / "athlete.json";
    Athlete athlete = readAthlete(file).value();
    athlete.name = "Maximiliane-Katharina von und zu Hohenfels-Abernathy of Upper Strathkinness";
    REQUIRE(writeAthlete(athlete, file));
    MainWindow& window = fixture.openWindow(QStringLiteral("filming"));
    QCoreApplication::processEvents();
    CHECK(window.width() == 1280);
    const auto* name = window.findChild<SessionBar*>()->findChild<ElidedLabel*>();
    REQUIRE(name != nullptr);
    CHECK(name->text().endsWith(QChar(0x2026)));
    CHECK(name->toolTip().contains(QStringLiteral("Strathkinness")));
    CHECK(name->accessibleName().contains(QStringLiteral("Strathkinness")));
}
