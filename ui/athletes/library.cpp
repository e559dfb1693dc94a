// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/library.hpp"

#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QDate>

#include <algorithm>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("Library", text);
}

std::vector<std::filesystem::path> foldersWith(const std::filesystem::path& folder,
                                               const char* file)
{
    std::vector<std::filesystem::path> found;
    std::error_code fault;
    for (const auto& entry : std::filesystem::directory_iterator(folder, fault)) {
        if (std::filesystem::is_regular_file(entry.path() / file, fault)) {
            found.push_back(entry.path());
        }
    }
    return found;
}

QString toDoIn(const Session& session)
{
    const SessionClip* fresh = findClip(session, "fresh");
    const SessionClip* fatigued = findClip(session, "fatigued");
    if (session.clips.empty()) {
        return translated(QT_TRANSLATE_NOOP("Library", "add clips"));
    }
    if (fresh == nullptr || fatigued == nullptr) {
        return fresh == nullptr
                   ? translated(QT_TRANSLATE_NOOP("Library", "the fresh clip is missing"))
                   : translated(QT_TRANSLATE_NOOP("Library", "the fatigued clip is missing"));
    }
    for (const SessionClip* clip : {fresh, fatigued}) {
        if (!clip->scene.scale && !clip->scene.plane) {
            return QCoreApplication::translate("Library", "draw the scale of the %1 clip")
                .arg(wordForCondition(clip->condition));
        }
        if (clip->marking.stances.empty() || clip->marking.marks.empty()) {
            return QCoreApplication::translate("Library", "mark the %1 clip")
                .arg(wordForCondition(clip->condition));
        }
    }
    return translated(QT_TRANSLATE_NOOP("Library", "ready for the sheet"));
}

} // namespace

std::vector<AthleteEntry> athletesOf(const std::filesystem::path& library)
{
    std::vector<AthleteEntry> athletes;
    for (const auto& folder : foldersWith(library, "athlete.json")) {
        if (auto athlete = readAthlete(folder / "athlete.json")) {
            athletes.push_back({folder, std::move(*athlete)});
        }
    }
    std::ranges::sort(athletes, [](const AthleteEntry& a, const AthleteEntry& b) {
        return QString::localeAwareCompare(fromUtf8(a.athlete.name), fromUtf8(b.athlete.name)) < 0;
    });
    return athletes;
}

std::vector<SessionEntry> sessionsOf(const std::filesystem::path& athleteFolder)
{
    std::vector<SessionEntry> sessions;
    for (const auto& folder : foldersWith(athleteFolder, "session.json")) {
        const auto session = readSession(folder);
        const QString name = fromUtf8(folder.filename().string());
        if (!session) {
            sessions.push_back({folder, name, {}, fromUtf8(session.error().sentence)});
            continue;
        }
        sessions.push_back(
            {folder, fromUtf8(session->date),
             QCoreApplication::translate("Library", "Clips: %1").arg(session->clips.size()),
             toDoIn(*session)});
    }
    std::ranges::sort(sessions, std::ranges::greater{}, &SessionEntry::date);
    return sessions;
}

Outcome<std::filesystem::path> addAthlete(const std::filesystem::path& library,
                                          const Athlete& athlete)
{
    const std::filesystem::path name(athlete.code);
    if (athlete.code.empty() || name.filename() != name || athlete.code.front() == '.') {
        return fail(Error::Kind::Inconsistent,
                    "The code names the athlete's folder: use letters, figures and dashes.");
    }
    const auto folder = library / name;
    std::error_code fault;
    if (std::filesystem::exists(folder, fault)) {
        return fail(Error::Kind::Inconsistent,
                    "The code " + athlete.code + " is taken: choose another.");
    }
    std::filesystem::create_directories(folder, fault);
    if (fault) {
        return fail(Error::Kind::DiskFull,
                    "The folder of the new athlete cannot be made in the library.",
                    fault.message());
    }
    RETURN_IF_ERROR(writeAthlete(athlete, folder / "athlete.json"));
    return folder;
}

Outcome<std::filesystem::path> sessionOfToday(const std::filesystem::path& athleteFolder)
{
    const std::string date = QDate::currentDate().toString(Qt::ISODate).toStdString();
    const auto folder = athleteFolder / date;
    std::error_code fault;
    if (std::filesystem::exists(folder / "session.json", fault)) {
        return folder;
    }
    std::filesystem::create_directories(folder / "clips", fault);
    if (fault) {
        return fail(Error::Kind::DiskFull, "The folder of the new session cannot be made.",
                    fault.message());
    }
    Session session;
    session.date = date;
    // The measures are chosen before looking, once for all visits.
    if (const auto before = sessionsOf(athleteFolder); !before.empty()) {
        if (const auto last = readSession(before.front().folder)) {
            session.measures = last->measures;
            session.cues = last->cues;
            session.coach = last->coach;
        }
    }
    RETURN_IF_ERROR(writeSession(session, folder));
    return folder;
}

} // namespace latemile::ui
