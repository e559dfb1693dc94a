// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/library.hpp"

#include "core/measures/asked_landmarks.hpp"
#include "core/sheet/sheet_cues.hpp"
#include "core/store/athlete_sessions.hpp"
#include "core/store/session_days.hpp"
#include "core/whole_file.hpp"
#include "ui/page/resource_file.hpp"
#include "ui/text/words.hpp"

#include <QCollator>
#include <QCoreApplication>
#include <QLocale>
#include <QSettings>
#include <QStringList>
#include <QtConcurrent>

#include <algorithm>
#include <set>

namespace latemile::ui {
namespace {

constexpr int daysToNext = 28;            ///< a month of practice between two visits
constexpr std::ptrdiff_t fewestSteps = 6; ///< of the near foot, for a comparison to be called

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

/// At most: without opening the clip it is not known which frame is which step's, but a confirmed
/// near step has placed marks on as many frames as there are instants to be marked.
std::ptrdiff_t confirmedSteps(const Marking& marking, Foot near,
                              const std::vector<std::string>& measures)
{
    std::set<FrameNumber> frames;
    for (const auto& [key, mark] : marking.marks) {
        if (key.side == BodySide::Near && mark.origin == Origin::Placed) {
            frames.insert(key.frame);
        }
    }
    const auto stances = std::ranges::count_if(marking.stances, [near](const Stance& stance) {
        return stance.foot == near && stance.origin == Origin::Placed;
    });
    const AskedLandmarks asked(measures);
    const auto instants = std::ranges::count_if(
        instantsInOrder, [&asked](Instant instant) { return !asked.at(instant, true).empty(); });
    return instants == 0 ? stances : std::min(stances, std::ssize(frames) / instants);
}

/// What a clip still needs before the sheet; the next thing only, since one leads to another.
QString toDoIn(const SessionClip& clip, const std::vector<std::string>& measures)
{
    const QString name = wordForCondition(clip.condition);
    if (!clip.scene.scale && !clip.scene.plane) {
        return QCoreApplication::translate("Library", "draw the scale of the %1 clip").arg(name);
    }
    if (clip.marking.stances.empty() || clip.marking.marks.empty()) {
        return QCoreApplication::translate("Library", "mark the %1 clip").arg(name);
    }
    const auto near = clip.scene.view == View::RightSide ? Foot::Right : Foot::Left;
    const auto steps =
        std::ranges::count(clip.marking.stances, near, [](const Stance& s) { return s.foot; });
    if (steps < fewestSteps) {
        return QCoreApplication::translate("Library", "mark %1 steps more of the %2 clip")
            .arg(fewestSteps - steps)
            .arg(name);
    }
    const auto confirmed = confirmedSteps(clip.marking, near, measures);
    return confirmed < fewestSteps
               ? QCoreApplication::translate("Library", "confirm %1 steps more of the %2 clip")
                     .arg(fewestSteps - confirmed)
                     .arg(name)
               : QString();
}

QString toDoIn(const Session& session)
{
    if (session.clips.empty()) {
        return translated(QT_TRANSLATE_NOOP("Library", "add clips"));
    }
    QStringList left;
    for (const char* condition : {"fresh", "fatigued"}) {
        const SessionClip* clip = findClip(session, condition);
        const QString work = clip == nullptr
                                 ? QCoreApplication::translate("Library", "add the %1 clip")
                                       .arg(wordForCondition(condition))
                                 : toDoIn(*clip, session.measures);
        if (!work.isEmpty()) {
            left.append(work);
        }
    }
    return left.isEmpty() ? translated(QT_TRANSLATE_NOOP("Library", "ready for the sheet"))
                          : left.join(QStringLiteral("; "));
}

QString askedIn(const Session& session)
{
    if (!session.screening) {
        return translated(QT_TRANSLATE_NOOP("Library", "not asked"));
    }
    return session.screening->flags.empty()
               ? translated(QT_TRANSLATE_NOOP("Library", "asked, nothing ticked"))
               : translated(QT_TRANSLATE_NOOP("Library", "! clinician first"));
}

/// Of the newest session that can be read.
QDate dueDayOf(const std::filesystem::path& athleteFolder)
{
    const auto folders = sessionFoldersOf(athleteFolder);
    for (auto folder = folders.rbegin(); folder != folders.rend(); ++folder) {
        if (const auto days = sessionDaysOf(*folder)) {
            return nextRefilmOf(days->date, days->nextRefilm);
        }
    }
    return {};
}

std::optional<AthleteEntry> entryOf(const std::filesystem::path& folder)
{
    auto athlete = readAthlete(folder / "athlete.json");
    return athlete ? std::optional<AthleteEntry>({folder, std::move(*athlete), dueDayOf(folder)})
                   : std::nullopt;
}

/// What the athlete was sent home with: the coach's cues, else those the numbers suggested. Opens
/// both clips; a day that cannot be read hands over what the coach chose.
std::vector<std::string> cuesHandedOver(const std::filesystem::path& folder, const Session& session)
{
    const SessionClip* fresh = findClip(session, "fresh");
    const SessionClip* fatigued = findClip(session, "fatigued");
    const auto cues = readCues(resourceFile("cues.json"));
    if (!session.cues.empty() || fresh == nullptr || fatigued == nullptr || !cues) {
        return session.cues;
    }
    const auto one = readingsOf(folder, session, *fresh, {}, {}); // no cue answers an own measure
    const auto two = readingsOf(folder, session, *fatigued, {}, {});
    return one && two ? cuesOnSheet(session, *one, *two, *cues) : session.cues;
}

} // namespace

std::vector<AthleteEntry> athletesOf(const std::filesystem::path& library)
{
    // Thousands of small files: the time goes into reading them, and each is nobody else's.
    const auto read = QtConcurrent::blockingMapped<std::vector<std::optional<AthleteEntry>>>(
        foldersWith(library, "athlete.json"), entryOf);
    std::vector<AthleteEntry> athletes;
    for (const auto& entry : read) {
        if (entry) {
            athletes.push_back(*entry);
        }
    }
    QCollator byName;
    std::ranges::sort(athletes, [&byName](const AthleteEntry& a, const AthleteEntry& b) {
        return byName.compare(fromUtf8(a.athlete.name), fromUtf8(b.athlete.name)) < 0;
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
            sessions.push_back({folder, name, {}, {}, fromUtf8(session.error().sentence)});
            continue;
        }
        sessions.push_back({folder, fromUtf8(session->date), QString::number(session->clips.size()),
                            askedIn(*session), toDoIn(*session)});
    }
    std::ranges::sort(sessions, std::ranges::greater{}, &SessionEntry::date);
    return sessions;
}

QDate nextRefilmOf(const std::string& date, const std::string& stated)
{
    const QDate wished = QDate::fromString(fromUtf8(stated), Qt::ISODate);
    return wished.isValid() ? wished
                            : QDate::fromString(fromUtf8(date), Qt::ISODate).addDays(daysToNext);
}

QString dueText(QDate nextRefilm, QDate today)
{
    if (!nextRefilm.isValid()) {
        return translated(QT_TRANSLATE_NOOP("Library", "not filmed yet"));
    }
    const QString date = QLocale().toString(nextRefilm, QStringLiteral("d MMM yyyy"));
    return nextRefilm <= today
               ? QCoreApplication::translate("Library", "re-film due since %1").arg(date)
               : QCoreApplication::translate("Library", "next re-film %1").arg(date);
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
    RETURN_IF_ERROR(makeFolders(folder));
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
    RETURN_IF_ERROR(makeFolders(folder / "clips"));
    Session session;
    session.date = date;
    // The measures are chosen before looking, once for all visits.
    session.coach = QSettings().value(QStringLiteral("sheet/coach")).toString().toStdString();
    if (const auto before = sessionsOf(athleteFolder); !before.empty()) {
        if (const auto last = readSession(before.front().folder)) {
            session.measures = last->measures;
            session.cues = cuesHandedOver(before.front().folder, *last);
            session.coach = last->coach;
        }
    }
    RETURN_IF_ERROR(writeSession(session, folder));
    return folder;
}

} // namespace latemile::ui
