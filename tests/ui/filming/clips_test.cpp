// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/render_clip.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"
#include "tests/ui/filming/filming_fixture.hpp"
#include "tests/ui/window/layout_checks.hpp"
#include "ui/document/commands/set_capture_rate.hpp"
#include "ui/filming/check_list.hpp"
#include "ui/filming/clip_import.hpp"
#include "ui/filming/clip_opening.hpp"
#include "ui/filming/recent_files.hpp"
#include "ui/filming/work_side.hpp"

#include <QFile>
#include <QMenu>
#include <QTest>
#include <QToolButton>
#include <QUndoStack>

#include <fstream>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// 240 frames a second stored as 30, and nothing in the file that says so.
QString slowMotionClip(const tests::ScratchFolder& folder, const char* name)
{
    maker::ClipRecipe recipe;
    recipe.video.captureRate = 240;
    recipe.video.containerRate = 30;
    recipe.video.duration = 0.2;
    recipe.camera.width = 640;
    recipe.camera.height = 360;
    const auto file = folder / name;
    REQUIRE(maker::renderClip(recipe, file));
    return QString::fromStdString(file.string());
}

/// The names of the parts, each with its sign.
QStringList signsOf(const FilmingPage& page)
{
    QStringList signs;
    const auto buttons = page.side().findChildren<QToolButton*>();
    for (const QToolButton* button : buttons) {
        signs.append(button->text());
    }
    return signs;
}

} // namespace

TEST_CASE("clips dropped on the page are copied into the session, and undo takes them out", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstVisit();
    coach.drop({sampleClip("2026-09-26", "late.mp4"), sampleClip("2026-10-24", "fresh.mp4")}, 4);
    const auto clips = coach.window().session()->clips();
    // ffprobe 5.1.9 counts 672 frames of 1280 x 720 in each of the sample's side clips.
    CHECK(clips[2]->feed().facts().frames == 672);
    // Other files of those names were there: all are kept.
    CHECK(clips[2]->clip().file == "clips/late-2.mp4");
    CHECK(clips[3]->clip().file == "clips/fresh-2.mp4");
    coach.window().undo();
    coach.window().undo();
    coach.window().undo();
    coach.window().undo();
    CHECK(coach.window().session()->clips().size() == 2);
}

TEST_CASE("a linked film stays where it is, and is found again where it was moved to", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    const tests::ScratchFolder disk;
    std::filesystem::create_directories(disk / "moved");
    const auto film = disk / "run.mp4";
    std::filesystem::copy_file(sampleClip("2026-08-29", "fresh.mp4").toStdString(), film);
    coach.press(QStringLiteral("Link only"));
    coach.drop({QString::fromStdString(film.string())}, 1);
    const auto clip = coach.folder() / "clips/run.mp4";
    CHECK(std::filesystem::read_symlink(clip) == film);
    CHECK(coach.clip().feed().facts().frames == 672);

    std::filesystem::rename(film, disk / "moved/early.mp4");
    coach.clip().openAgain();
    REQUIRE(waitUntil([&] { return !coach.clip().fault().isEmpty(); }));
    CHECK(coach.clip().fault().contains(QStringLiteral("run.mp4")));
    CHECK(buttonNamed(page, QStringLiteral("Find the film…")).isVisible());
    CHECK(signsOf(page).contains(QStringLiteral("Clip  ✗")));
    CHECK_FALSE(signsOf(page).contains(QStringLiteral("Trust  ✓")));
    // Cameras use names again: another film does not take the lost one's place.
    const tests::ScratchFolder other;
    QUndoStack& history = coach.window().session()->history();
    const int before = history.index();
    coach.press(QStringLiteral("Link only"));
    page.addFiles({slowMotionClip(other, "run.mp4")});
    REQUIRE(waitUntil([&] { return coach.window().session()->clips().size() == 2; }));
    CHECK(std::filesystem::is_symlink(clip));
    CHECK(std::filesystem::exists(coach.folder() / "clips/run-2.mp4"));
    REQUIRE(waitUntil([&] { return coach.clip().isOpen(); }));
    history.setIndex(before);
    coach.press(QStringLiteral("Link only"));
    REQUIRE(coach.window().session()->clips().size() == 1);
    page.opening().searchIn(disk / "moved");
    REQUIRE(waitUntil([&] { return coach.clip().isOpen(); }));
    CHECK(std::filesystem::read_symlink(clip) == disk / "moved/early.mp4");
    // The same film once more is shown, not described twice.
    page.addFiles({QString::fromStdString(clip.string())});
    REQUIRE(waitUntil([&] { return !page.findChild<ClipImport*>()->isBusy(); }));
    CHECK(coach.window().session()->clips().size() == 1);
    coach.press(QStringLiteral("Link only")); // remembered: the next test copies
}

TEST_CASE("a film that is no longer the one that came in is told under Trust", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstDay();
    const tests::ScratchFolder disk;
    coach.drop({slowMotionClip(disk, "run.mp4")}, 1);
    coach.show(FilmingPage::Trust);
    const auto tells = [&] {
        return std::ranges::any_of(coach.page().checks().remarks(),
                                   [](const Remark& remark) { return remark.about == "film"; });
    };
    coach.settle();
    CHECK_FALSE(tells());
    std::ofstream(coach.folder() / "clips/run.mp4", std::ios::app) << "and more";
    coach.clip().openAgain();
    CHECK(waitUntil(tells));
}

TEST_CASE("what is no video is refused in one sentence, and nothing is added", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    const tests::ScratchFolder folder;
    const auto text = folder.file("notes.mp4", "Tuesday: easy run");
    page.addFiles({QString::fromStdString(text.string())});
    REQUIRE(waitUntil([&] { return textsOf(page).contains(QStringLiteral("notes.mp4")); }));
    CHECK(coach.window().session()->clips().size() == 2);
    CHECK_FALSE(std::filesystem::exists(coach.folder() / "clips" / "notes.mp4"));
    page.addFiles({QString::fromStdString((folder / "gone.mp4").string())});
    REQUIRE(waitUntil([&] { return textsOf(page).contains(QStringLiteral("gone.mp4")); }));
    CHECK(coach.window().session()->clips().size() == 2);
}

TEST_CASE("files added before are offered again, those that are gone are told", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstVisit();
    const QString late = sampleClip("2026-09-26", "late.mp4");
    coach.drop({late}, 3);
    rememberFiles({QStringLiteral("/nowhere/lost.mp4")});
    QMenu menu;
    fillWithRecentFiles(menu);
    REQUIRE(menu.actions().size() == 2);
    CHECK(menu.actions()[0]->text().contains(QStringLiteral("no longer there")));
    CHECK_FALSE(menu.actions()[0]->isEnabled());
    CHECK(menu.actions()[1]->data().toString() == late);
    CHECK(menu.actions()[1]->isEnabled());
    for (int n = 0; n < 20; ++n) {
        rememberFiles({QStringLiteral("/nowhere/%1.mp4").arg(n)});
    }
    CHECK(recentFiles().size() == 8);
}

TEST_CASE("a clip that may be slow motion is asked about once a camera", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    const tests::ScratchFolder folder;
    coach.drop({slowMotionClip(folder, "one.mp4")}, 1);
    CHECK(textsOf(page).contains(QStringLiteral("plays 30 frames a second")));
    coach.press(QStringLiteral("240"));
    coach.settle();
    CHECK(coach.clip().feed().facts().captureRate == Approx(240.0));
    // 0.2 s of running; the last frame ends after it.
    CHECK(coach.clip().feed().facts().duration.count() == Approx(0.2).margin(0.005));
    CHECK_FALSE(textsOf(page).contains(QStringLiteral("plays 30 frames a second")));
    CHECK(textsOf(page).contains(QStringLiteral("8.0 times slower")));

    coach.drop({slowMotionClip(folder, "two.mp4")}, 2);
    coach.settle();
    REQUIRE(waitUntil([&] { return coach.clip().scene().captureRate.has_value(); }));
    coach.settle();
    CHECK(coach.clip().feed().facts().captureRate == Approx(240.0));
    CHECK(textsOf(page).contains(QStringLiteral("as you answered for this camera before")));
}

TEST_CASE("a capture rate of a quarter speed keeps every event on its frame", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstVisit();
    ClipDocument& clip = *coach.window().session()->clips().front();
    const auto frame = clip.index().firstAtOrAfter(clip.marking().stances[4].contact);
    const Seconds contact = clip.marking().stances[4].contact;
    coach.window().session()->history().push(new SetCaptureRate(clip, 480.0));
    coach.settle();
    CHECK(clip.index().firstAtOrAfter(clip.marking().stances[4].contact) == frame);
    CHECK(clip.marking().stances[4].contact.count() == Approx(contact.count() / 4));
}

TEST_CASE("a speed that is none is told beside its field, and nothing changes", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::Run);
    const auto before = coach.clip().scene();
    coach.typeText(QStringLiteral("Belt speed"), QStringLiteral("fast"));
    CHECK(textsOf(page).contains(QStringLiteral("'fast' is no speed in min/km")));
    CHECK(coach.clip().scene() == before);
    // 6:10 a kilometre is 1000 / 370 m/s.
    coach.typeText(QStringLiteral("Belt speed"), QStringLiteral("6:00"));
    CHECK(*coach.clip().scene().beltSpeed == Approx(1000.0 / 360.0));
    CHECK_FALSE(textsOf(page).contains(QStringLiteral("is no speed")));
}

TEST_CASE("a long file name is broken, not cut off", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    const tests::ScratchFolder folder;
    const auto file = folder / (std::string(180, 'a') + "_treadmill_left_side_fresh.mp4");
    std::filesystem::copy_file(sampleClip("2026-08-29", "fresh.mp4").toStdString(), file);
    coach.drop({QString::fromStdString(file.string())}, 1);
    CHECK(clippedIn(page).join(u'\n').toStdString() == "");
    CHECK(coach.window().width() == 1280);
}

TEST_CASE("pain is met with the word of a clinician", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstVisit();
    coach.show(FilmingPage::Run);
    CHECK_FALSE(textsOf(page).contains(QStringLiteral("clinician")));
    coach.choose(QStringLiteral("Pain"), QStringLiteral("yes"));
    CHECK(coach.clip().clip().pain == true);
    CHECK(textsOf(page).contains(QStringLiteral("licensed clinician")));
}
