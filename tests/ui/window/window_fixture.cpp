// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/window_fixture.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/window/page_list.hpp"

#include <QMap>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>

namespace latemile::ui {
namespace {

void copyVisit(const std::filesystem::path& to, const char* date)
{
    const auto from = tests::sourceFolder() / "sample_clips" / "ilse-varga";
    std::filesystem::create_directories(to / date / "clips");
    for (const char* file : {"session.json", "clips/fresh.mp4", "clips/late.mp4"}) {
        std::filesystem::copy_file(from / date / file, to / date / file);
    }
}

/// The sample's first clip coded otherwise, once for all cases that want it so.
std::filesystem::path codedAnew(const QStringList& recipe)
{
    static const QTemporaryDir folder;
    static QMap<QStringList, QString> made;
    if (const auto found = made.constFind(recipe); found != made.constEnd()) {
        return found->toStdString();
    }
    const auto whole = tests::sourceFolder() / "sample_clips/ilse-varga/2026-08-29/clips/fresh.mp4";
    const QString file = folder.filePath(QStringLiteral("%1.mp4").arg(made.size()));
    const QStringList words =
        QStringList{"-v", "error", "-i", QString::fromStdString(whole.string())} + recipe +
        QStringList{"-c:v", "libx264", "-preset", "ultrafast", "-crf", "14", file};
    REQUIRE(QProcess::execute(QStringLiteral("ffmpeg"), words) == 0);
    made[recipe] = file;
    return file.toStdString();
}

} // namespace

WindowFixture::WindowFixture()
{
    const auto from = tests::sourceFolder() / "sample_clips" / "ilse-varga";
    const auto to = std::filesystem::path(m_folder.path().toStdString()) / "ilse-varga";
    std::filesystem::create_directories(to);
    std::filesystem::copy_file(from / "athlete.json", to / "athlete.json");
    copyVisit(to, "2026-08-29");
}

std::filesystem::path WindowFixture::sessionFolder() const
{
    return std::filesystem::path(m_folder.path().toStdString()) / "ilse-varga" / "2026-08-29";
}

void WindowFixture::addLaterVisits()
{
    const auto athlete = sessionFolder().parent_path();
    copyVisit(athlete, "2026-09-26");
    copyVisit(athlete, "2026-10-24");
}

void WindowFixture::makeUnmarked(std::size_t clip)
{
    auto session = readSession(sessionFolder());
    REQUIRE(session);
    session->clips = {session->clips.at(clip)};
    session->clips[0].marking = {};
    REQUIRE(writeSession(*session, sessionFolder()));
}

void WindowFixture::shorten(int frames)
{
    codeAnew({}, frames);
}

void WindowFixture::recode(const QString& filter, int frames, int rate)
{
    const QString times = QStringLiteral(",setpts=N/%1/TB").arg(rate);
    codeAnew({"-filter_complex", filter + times, "-r", QString::number(rate)}, frames);
}

void WindowFixture::codeAnew(const QStringList& options, int frames)
{
    const auto clip = sessionFolder() / "clips" / "fresh.mp4";
    const auto coded = codedAnew(options + QStringList{"-frames:v", QString::number(frames)});
    std::filesystem::copy_file(coded, clip, std::filesystem::copy_options::overwrite_existing);
}

MainWindow& WindowFixture::openWindow(const QString& page)
{
    m_window = std::make_unique<MainWindow>();
    m_window->resize(1280, 800);
    m_window->show();
    m_window->activateWindow();
    REQUIRE(m_window->open(sessionFolder()));
    m_window->showPage(page);
    REQUIRE(waitUntil([this] {
        const auto clips = m_window->session()->clips();
        return std::ranges::all_of(clips, [](const ClipDocument* clip) {
            return clip->isOpen() && !clip->isReading() && clip->readings();
        });
    }));
    return *m_window;
}

QStringList allPages()
{
    QStringList pages{QStringLiteral("athletes")};
    for (const PageEntry& entry : pageList()) {
        pages.append(QString::fromLatin1(entry.id));
    }
    return pages;
}

bool waitUntil(const std::function<bool()>& held)
{
    return QTest::qWaitFor(held, 30000);
}

void waitForPicture(const MarksPage& page)
{
    REQUIRE(waitUntil([&] {
        return !page.view().pictureSize().isEmpty() && page.view().frame() == page.player().frame();
    }));
}

void press(QWidget& where, Qt::Key key, Qt::KeyboardModifiers modifiers)
{
    where.setFocus();
    QTest::keyClick(&where, key, modifiers);
}

} // namespace latemile::ui
