// SPDX-License-Identifier: GPL-3.0-or-later
// What leaves a session by the File menu, and what comes back.
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/session_document.hpp"
#include "ui/film/film_dialog.hpp"
#include "ui/film/film_work.hpp"
#include "ui/window/exchange_menu.hpp"

#include <QComboBox>
#include <QDir>
#include <QFileInfo>
#include <QProcess>
#include <QPushButton>
#include <QSpinBox>
#include <QTemporaryDir>
#include <QUndoStack>

#include <memory>

using namespace latemile;
using namespace latemile::ui;

namespace {

ClipDocument& readClip(WindowFixture& fixture, const char* condition)
{
    MainWindow& window = fixture.openWindow(QStringLiteral("readings"));
    ClipDocument* clip = window.session()->clipOf(condition);
    REQUIRE(clip != nullptr);
    REQUIRE(waitUntil([&] { return clip->isOpen() && clip->readings() && !clip->isReading(); }));
    return *clip;
}

/// The dialog on a session whose clips are read.
struct OpenFilm {
    WindowFixture fixture;
    const SessionDocument& session{*fixture.openWindow(QStringLiteral("compare")).session()};
    std::unique_ptr<FilmDialog> dialog;

    OpenFilm()
    {
        REQUIRE(waitUntil([this] {
            return session.clipOf("fresh")->readings() && session.clipOf("fatigued")->readings();
        }));
        dialog = std::make_unique<FilmDialog>(session);
    }
};

} // namespace

TEST_CASE("a film made in the window plays elsewhere", "[ui][film][outside]")
{
    // Outside: the ffprobe program.
    const OpenFilm film;
    FilmDialog& dialog = *film.dialog;
    CHECK(dialog.clips().count() == 3);
    CHECK(dialog.told().contains(QStringLiteral("The film takes")));
    dialog.steps().setValue(1);
    QTemporaryDir folder;
    const QString file = folder.filePath(QStringLiteral("film.mp4"));
    dialog.saveTo(file);
    REQUIRE(waitUntil([&] { return dialog.told().startsWith(QStringLiteral("Written")); }));
    QProcess probe;
    probe.start(QStringLiteral("ffprobe"),
                {QStringLiteral("-v"), QStringLiteral("error"), QStringLiteral("-count_frames"),
                 QStringLiteral("-show_entries"), QStringLiteral("stream=nb_read_frames"),
                 QStringLiteral("-of"), QStringLiteral("csv=p=0"), file});
    REQUIRE(probe.waitForFinished());
    const auto planned = dialog.plan();
    REQUIRE(planned);
    CHECK(probe.readAllStandardOutput().trimmed().toInt() ==
          static_cast<int>(planned->sides.front().shots.size()));
}

TEST_CASE("a film that is stopped leaves no file", "[ui][film]")
{
    const OpenFilm film;
    FilmDialog& dialog = *film.dialog;
    QTemporaryDir folder;
    dialog.saveTo(folder.filePath(QStringLiteral("film.mp4")));
    auto* work = dialog.findChild<FilmWork*>();
    REQUIRE(work != nullptr);
    int told = 0;
    QObject::connect(work, &LongWork::progress, [&](int percent) { told = percent; });
    REQUIRE(waitUntil([&] { return told >= 5; }));
    work->stop();
    CHECK_FALSE(work->isBusy());
    const QDir inside(folder.path());
    const auto everything = QDir::Files | QDir::Hidden;
    CHECK(waitUntil([&] { return inside.entryList(everything).isEmpty(); }));
}

TEST_CASE("the numbers of a clip go out, and its marks come back as one step", "[ui][exchange]")
{
    WindowFixture fixture;
    ClipDocument& clip = readClip(fixture, "fresh");
    const Marking before = clip.marking();
    QTemporaryDir out;
    const std::filesystem::path folder = out.path().toStdString();
    const auto words = exportNumbers(clip, folder);
    REQUIRE(words);
    CHECK(words->contains(QStringLiteral("fresh-points.c3d")));
    std::map<MarkKey, std::optional<Mark>> gone;
    for (const auto& [key, mark] : before.marks) {
        gone[key] = std::nullopt;
    }
    clip.exchangeMarks(gone);
    REQUIRE(clip.marking().marks.empty());
    for (const char* file : {"fresh-marks.csv", "fresh-keypoints.json"}) {
        CAPTURE(file);
        REQUIRE(takeMarking(clip, folder / file));
        CHECK(clip.marking().marks == before.marks);
        clip.history().undo();
        CHECK(clip.marking().marks.empty());
    }
    REQUIRE(takeMarking(clip, folder / "fresh-contacts.csv"));
    CHECK(clip.marking().stances == before.stances);
}

TEST_CASE("marks of another clip are refused and nothing changes", "[ui][exchange][refusals]")
{
    WindowFixture fixture;
    ClipDocument& clip = readClip(fixture, "fresh");
    const Marking before = clip.marking();
    QTemporaryDir folder;
    const QString name = folder.filePath(QStringLiteral("marks.csv"));
    QFile file(name);
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write("frame,side,landmark,x_px,y_px\n999999,near,hip,10,10\n");
    file.close();
    const auto taken = takeMarking(clip, name.toStdString());
    REQUIRE_FALSE(taken);
    CHECK(taken.error().sentence.find("has no frame 999999") != std::string::npos);
    CHECK(clip.marking() == before);
}
