// SPDX-License-Identifier: GPL-3.0-or-later
// What a coach sees of journal, lock and versions of the open session.
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/library.hpp"
#include "ui/document/commands/remove_clip.hpp"
#include "ui/document/commands/remove_mark.hpp"
#include "ui/document/commands/set_about.hpp"
#include "ui/document/commands/set_athlete.hpp"
#include "ui/window/end_signals.hpp"
#include "ui/window/notice_line.hpp"
#include "ui/window/session_bar.hpp"
#include "ui/window/window_state.hpp"

#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QSettings>
#include <QTest>

#include <csignal>

using namespace latemile;
using namespace latemile::ui;
using tests::bytesOf;

namespace {

void note(MainWindow& window, const char* text)
{
    SessionAbout about = window.session()->about();
    about.note = text;
    window.session()->history().push(
        new SetAbout(*window.session(), about, QStringLiteral("note"), -1));
}

NoticeLine& notice(MainWindow& window)
{
    return *window.findChild<NoticeLine*>();
}

bool says(MainWindow& window, const char* words)
{
    const auto labels = window.findChild<SessionBar*>()->findChildren<QLabel*>();
    return std::ranges::any_of(
        labels, [words](const QLabel* label) { return label->text() == QString::fromUtf8(words); });
}

/// The folder as a crash would leave it: what is on disk now, seen by another program.
std::filesystem::path copyOfNow(const WindowFixture& fixture, const tests::ScratchFolder& scratch)
{
    const auto to = scratch / "ilse-varga";
    std::filesystem::copy(fixture.sessionFolder().parent_path(), to,
                          std::filesystem::copy_options::recursive);
    return to / fixture.sessionFolder().filename();
}

} // namespace

TEST_CASE("an edit is called saved when it is in the journal, before the document has it", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    const auto before = bytesOf(fixture.sessionFolder() / "session.json");
    note(window, "said before the crash");
    CHECK(says(window, "Saving…"));
    REQUIRE(waitUntil([&] { return says(window, "Saved"); }));
    CHECK(bytesOf(fixture.sessionFolder() / "session.journal").find("said before the crash") !=
          std::string::npos);
    CHECK(bytesOf(fixture.sessionFolder() / "session.json") == before);
    // A rest later the document has it, and the journal is empty.
    REQUIRE(
        waitUntil([&] { return bytesOf(fixture.sessionFolder() / "session.journal").empty(); }));
    CHECK(readSession(fixture.sessionFolder())->note == "said before the crash");
}

TEST_CASE("after a crash the window offers the edits, once, and takes them over", "[ui]")
{
    WindowFixture fixture;
    const tests::ScratchFolder scratch;
    note(fixture.openWindow(QStringLiteral("marks")), "said before the crash");
    REQUIRE(waitUntil([&] { return says(fixture.window(), "Saved"); }));
    const auto left = copyOfNow(fixture, scratch);
    MainWindow window;
    window.show();
    REQUIRE(window.open(left));
    NoticeLine& line = notice(window);
    REQUIRE(line.isVisible());
    CHECK(line.text().text().contains(QStringLiteral("notes and choices for the sheet")));
    CHECK(says(window, "Read only"));
    const auto earlier = window.session()->about().note;

    // Before the answer nothing is changed, and the line says so.
    note(window, "too early");
    REQUIRE(waitUntil([&] { return window.session()->about().note == earlier; }));
    CHECK(line.text().text().startsWith(QStringLiteral("! Not changed.")));

    SECTION("taken over")
    {
        QTest::mouseClick(&line.first(), Qt::LeftButton);
        CHECK(window.session()->about().note == "said before the crash");
        CHECK(readSession(left)->note == "said before the crash");
    }
    SECTION("left out: kept in a file")
    {
        QTest::mouseClick(&line.second(), Qt::LeftButton);
        CHECK(window.session()->about().note == earlier);
        CHECK(std::filesystem::exists(left / "session.left-out-1.journal"));
    }
    CHECK_FALSE(line.isVisible());
    CHECK_FALSE(window.session()->isReadOnly());
    REQUIRE(window.open(left));
    CHECK_FALSE(line.isVisible());
    note(window, "works again");
    REQUIRE(window.session()->saver().saveNow());
    CHECK(readSession(left)->note == "works again");
}

TEST_CASE("a second window on a session looks, says who has it, and can try again", "[ui]")
{
    WindowFixture fixture;
    QSettings().setValue(QStringLiteral("sheet/coach"), QStringLiteral("M. Osei"));
    fixture.openWindow(QStringLiteral("marks"));
    QSettings().remove(QStringLiteral("sheet/coach"));
    MainWindow second;
    second.show();
    REQUIRE(second.open(fixture.sessionFolder()));
    NoticeLine& line = notice(second);
    REQUIRE(line.isVisible());
    CHECK(line.text().text().contains(QStringLiteral("M. Osei on ")));
    CHECK(says(second, "Read only"));
    const auto before = bytesOf(fixture.sessionFolder() / "session.json");
    const auto earlier = second.session()->about().note;
    note(second, "from the second window");
    REQUIRE(waitUntil([&] { return second.session()->about().note == earlier; }));
    CHECK_FALSE(second.session()->history().canUndo());
    second.close();
    CHECK(bytesOf(fixture.sessionFolder() / "session.json") == before);

    fixture.closeWindow();
    second.show();
    QTest::mouseClick(&line.first(), Qt::LeftButton);
    CHECK_FALSE(line.isVisible());
    note(second, "from the second window");
    REQUIRE(waitUntil([&] { return says(second, "Saved"); }));
}

TEST_CASE("a session changed outside the window is kept, and the coach is told", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto theirs = readSession(fixture.sessionFolder()).value();
    theirs.note = "theirs";
    REQUIRE(writeSession(theirs, fixture.sessionFolder()));
    note(window, "ours");
    REQUIRE(window.session()->saver().saveNow());
    REQUIRE(notice(window).isVisible());
    CHECK(notice(window).text().text().contains(QStringLiteral("session.other-1.json")));
    CHECK(readSession(fixture.sessionFolder())->note == "ours");
    CHECK(bytesOf(fixture.sessionFolder() / "session.other-1.json").find("theirs") !=
          std::string::npos);
    QTest::mouseClick(&notice(window).first(), Qt::LeftButton);
    CHECK_FALSE(notice(window).isVisible());
}

TEST_CASE("a wish from outside that the program end is a close: saved, and the lock gone", "[ui]")
{
    const int signal = GENERATE(SIGTERM, SIGHUP);
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    CHECK(std::filesystem::exists(fixture.sessionFolder() / "session.lock"));
    const EndSignals ends;
    QObject::connect(&ends, &EndSignals::came, &window, &MainWindow::endNow);
    note(window, "last words");
    REQUIRE(std::raise(signal) == 0);
    REQUIRE(waitUntil([&] { return window.session() == nullptr; }));
    CHECK(readSession(fixture.sessionFolder())->note == "last words");
    CHECK_FALSE(std::filesystem::exists(fixture.sessionFolder() / "session.lock"));
    CHECK_FALSE(std::filesystem::exists(fixture.sessionFolder() / "session.journal"));
}

TEST_CASE("of a deleted athlete no byte of the name is left", "[ui]")
{
    WindowFixture fixture;
    const auto library = fixture.sessionFolder().parent_path().parent_path();
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    auto made = addAthlete(library, {.code = "zq-77",
                                     .name = "Zephyrine Quux",
                                     .heightCm = {},
                                     .legLengthCm = {},
                                     .massKg = {},
                                     .note = {},
                                     .minor = false,
                                     .consent = {},
                                     .unknown = {}});
    REQUIRE(made);
    const auto session = sessionOfToday(*made);
    REQUIRE(session);
    REQUIRE(window.open(*session));
    note(window, "Zephyrine Quux ran well");
    REQUIRE(window.session()->saver().saveNow());
    note(window, "Zephyrine Quux ran better");
    REQUIRE(waitUntil([&] { return says(window, "Saved"); }));
    QSettings().setValue(QStringLiteral("filming/recent"),
                         QStringList{QStringLiteral("/films/zephyrine_quux.mp4"),
                                     QStringLiteral("/films/other.mp4")});
    window.showPage(QStringLiteral("athletes"));
    window.athletes().reload();
    window.athletes().athletes().choose(*made);
    window.findChild<QPushButton*>(QStringLiteral("delete athlete"))->click();
    const auto questions = window.findChildren<QMessageBox*>();
    REQUIRE(questions.size() == 1);
    CHECK(questions.front()->text().contains(QStringLiteral("Zephyrine Quux")));
    for (QAbstractButton* button : questions.front()->buttons()) {
        if (button->text() == QStringLiteral("Delete for good")) {
            button->click();
            break;
        }
    }
    CHECK_FALSE(std::filesystem::exists(*made));
    CHECK(window.session() == nullptr);
    window.close();
    QSettings().sync();
    CHECK(QSettings().value(QStringLiteral("filming/recent")).toStringList() ==
          QStringList{QStringLiteral("/films/other.mp4")});
    std::vector<std::filesystem::path> files{QSettings().fileName().toStdString()};
    for (const auto& entry : std::filesystem::recursive_directory_iterator(library)) {
        files.push_back(entry.path());
    }
    for (const auto& file : files) {
        for (const char* name : {"Zephyrine", "zephyrine", "Quux", "zq-77"}) {
            CAPTURE(file.string(), name);
            CHECK(file.string().find(name) == std::string::npos);
            CHECK((std::filesystem::is_directory(file) ||
                   bytesOf(file).find(name) == std::string::npos));
        }
    }
    CHECK(std::filesystem::exists(fixture.sessionFolder() / "session.json"));
}

TEST_CASE("names hidden stay hidden at the next start", "[ui]")
{
    MainWindow window;
    window.setNamesHidden(true);
    rememberWindow(window, {.folder = {}, .page = {}, .namesHidden = window.areNamesHidden()});
    MainWindow next;
    CHECK(recallWindow(next).namesHidden);
    QSettings().remove(QStringLiteral("window"));
    CHECK_FALSE(recallWindow(next).namesHidden);
}

TEST_CASE("a key that was changed is the one told beside the page's name", "[ui]")
{
    MainWindow window;
    const auto told = [&window](const QString& name) {
        for (const auto* button : window.findChildren<QPushButton*>()) {
            if (button->text() == name && button->property("rank") == QStringLiteral("rail")) {
                return button->toolTip();
            }
        }
        return QString();
    };
    CHECK(told(QStringLiteral("Filming")) == "Filming (Ctrl+2)");
    window.keys().set(QStringLiteral("page.filming"), QKeySequence(QStringLiteral("Ctrl+9")));
    CHECK(told(QStringLiteral("Filming")) == "Filming (Ctrl+9)");
    window.keys().resetAll();
    CHECK(told(QStringLiteral("Filming")) == "Filming (Ctrl+2)");
}

TEST_CASE("edits of an earlier run can be undone to the first and done again", "[ui]")
{
    WindowFixture fixture;
    const auto original = readSession(fixture.sessionFolder()).value();
    const auto takeMark = [](MainWindow& window, std::size_t clip) {
        ClipDocument& document = *window.session()->clips().at(clip);
        const MarkKey key = document.marking().marks.begin()->first;
        window.session()->history().push(new RemoveMark(document, key));
    };
    {
        MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
        takeMark(window, 0);
        takeMark(window, 1);
        note(window, "first");
        window.session()->history().undo();
        note(window, "second");
        window.session()->history().push(new RemoveClip(*window.session(), 0));
        takeMark(window, 0);
    }
    fixture.closeWindow();
    const auto edited = readSession(fixture.sessionFolder()).value();
    CHECK(edited.clips.size() == original.clips.size() - 1);

    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    QUndoStack& history = window.session()->history();
    REQUIRE(history.count() == 5);
    CHECK(history.undoText().startsWith("remove "));
    CHECK(window.session()->session() == edited);
    takeMark(window, 0); // on the second clip, in this run
    history.undo();
    history.setIndex(3); // before the clip was removed: it is back
    CHECK(window.session()->clips().size() == original.clips.size());
    takeMark(window, 0); // and takes edits of this run
    history.setIndex(0);
    CHECK(window.session()->session() == original);
    history.setIndex(history.count());
    CHECK(history.count() == 4);
    CHECK(window.session()->about().note == "second");
    fixture.closeWindow();

    // Undone before closing: still there to be done again.
    fixture.openWindow(QStringLiteral("marks")).session()->history().setIndex(1);
    fixture.closeWindow();
    MainWindow& last = fixture.openWindow(QStringLiteral("marks"));
    CHECK(last.session()->history().index() == 1);
    CHECK(last.session()->history().count() == 4);
    last.session()->history().setIndex(4);
    CHECK(last.session()->about().note == "second");
}

TEST_CASE("what follows a moved mark by itself goes with its edit after a restart", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    ClipDocument& clip = *window.session()->clips().front();
    const auto before = clip.marking();
    const MarkKey first = before.marks.begin()->first;
    const MarkKey other = std::next(before.marks.begin())->first;
    window.session()->history().push(new RemoveMark(clip, first));
    clip.replaceMark(other, std::nullopt); // as a path that is followed anew does
    fixture.closeWindow();
    SessionDocument& again = *fixture.openWindow(QStringLiteral("marks")).session();
    again.history().undo();
    CHECK(again.clips().front()->marking() == before);
    again.history().redo();
    CHECK(again.clips().front()->marking().find(other) == nullptr);
}

TEST_CASE("what goes on after an edit was undone is not taken for the edit before it", "[ui]")
{
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    ClipDocument& clip = *window.session()->clips().front();
    const auto before = clip.marking();
    const MarkKey first = before.marks.begin()->first;
    const MarkKey second = std::next(before.marks.begin())->first;
    const MarkKey other = std::next(before.marks.begin(), 2)->first;
    QUndoStack& history = window.session()->history();
    history.push(new RemoveMark(clip, first));
    history.push(new RemoveMark(clip, second));
    clip.replaceMark(other, std::nullopt); // a path goes with the second edit
    REQUIRE(waitUntil([&] { return says(window, "Saved"); }));
    history.undo();
    clip.replaceMark(other, before.marks.at(other)); // and comes back as that is undone
    fixture.closeWindow();
    SessionDocument& again = *fixture.openWindow(QStringLiteral("marks")).session();
    again.history().undo();
    CHECK(again.clips().front()->marking() == before);
}

TEST_CASE("undo does not take back what another window wrote of the athlete", "[ui]")
{
    WindowFixture fixture;
    SessionDocument& session = *fixture.openWindow(QStringLiteral("marks")).session();
    const auto file = athleteFileOf(session.folder());
    Athlete theirs = session.athlete();
    theirs.note = "consent withdrawn for pictures";
    REQUIRE(writeAthlete(theirs, file));
    Athlete ours = session.athlete();
    ours.massKg = 63.0;
    session.history().push(new SetAthlete(session, ours, QStringLiteral("mass"), 1));
    CHECK(session.athlete() == theirs);
    session.history().undo();
    CHECK(readAthlete(file) == theirs);
}
