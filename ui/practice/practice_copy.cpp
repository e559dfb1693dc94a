// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/practice_copy.hpp"

#include "core/store/athlete_sessions.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QDate>
#include <QLocale>

#include <algorithm>

namespace latemile::ui {
namespace {

std::filesystem::path truthOf(std::filesystem::path clip)
{
    return clip.replace_extension(".truth.json");
}

QString nameOf(const Session& session, const SessionClip& clip)
{
    const QDate date = QDate::fromString(fromUtf8(session.date), Qt::ISODate);
    return QStringLiteral("%1, %2").arg(QLocale().toString(date, QStringLiteral("d MMM yyyy")),
                                        wordForCondition(clip.condition));
}

Error couldNotCopy(const std::error_code& fault)
{
    return {Error::Kind::DiskFull, "The clip could not be copied for practice: is the disk full?",
            fault.message()};
}

} // namespace

std::vector<PracticeClip> practiceClips(const std::filesystem::path& athleteFolder)
{
    std::vector<PracticeClip> clips;
    for (const auto& folder : sessionFoldersOf(athleteFolder)) {
        const auto session = readSession(folder);
        if (!session) {
            continue;
        }
        for (const SessionClip& clip : session->clips) {
            std::error_code ignored;
            if (isSideView(clip.scene.view) &&
                std::filesystem::exists(truthOf(folder / clip.file), ignored)) {
                clips.push_back({folder, clip.file, nameOf(*session, clip)});
            }
        }
    }
    return clips;
}

Outcome<std::unique_ptr<PracticeCopy>> PracticeCopy::make(const PracticeClip& clip)
{
    ASSIGN_OR_RETURN(auto session, readSession(clip.session));
    std::unique_ptr<PracticeCopy> copy(new PracticeCopy);
    ASSIGN_OR_RETURN(copy->m_truth, readClipTruth(clip.session / clip.file));
    std::erase_if(session.clips, [&](const SessionClip& one) { return one.file != clip.file; });
    for (SessionClip& one : session.clips) {
        one.marking = {};
    }
    const auto folder =
        std::filesystem::path(copy->m_folder.path().toStdString()) / "practice" / session.date;
    std::error_code fault;
    std::filesystem::create_directories((folder / clip.file).parent_path(), fault);
    std::filesystem::copy_file(clip.session / clip.file, folder / clip.file, fault);
    if (fault) {
        return tl::unexpected<Error>(couldNotCopy(fault));
    }
    RETURN_IF_ERROR(writeSession(session, folder));
    ASSIGN_OR_RETURN(copy->m_session, SessionDocument::open(folder));
    return copy;
}

} // namespace latemile::ui
