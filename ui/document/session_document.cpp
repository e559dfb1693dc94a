// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/session_document.hpp"

#include "core/store/library_measures.hpp"
#include "ui/document/clip_state.hpp"
#include "ui/document/commands/earlier_edit.hpp"
#include "ui/text/words.hpp"

#include <QSettings>
#include <QSignalBlocker>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

SessionAbout aboutIn(const Session& session)
{
    return {session.date,     session.note,      session.coach,
            session.measures, session.cues,      session.measuresAfterLooking,
            session.stills,   session.screening, session.nextRefilm};
}

} // namespace

std::filesystem::path athleteFileOf(const std::filesystem::path& sessionFolder)
{
    const auto whole = std::filesystem::absolute(sessionFolder).lexically_normal();
    const auto folder = whole.has_filename() ? whole : whole.parent_path();
    return folder.parent_path() / "athlete.json";
}

Outcome<std::unique_ptr<SessionDocument>> SessionDocument::open(const std::filesystem::path& folder)
{
    const QString coach = QSettings().value(QStringLiteral("sheet/coach")).toString();
    ASSIGN_OR_RETURN(auto file, SessionFile::open(folder, ownerHere(coach.toStdString())));
    Athlete athlete;
    const auto athleteFile = athleteFileOf(folder);
    std::error_code ignored;
    if (std::filesystem::exists(athleteFile, ignored)) {
        ASSIGN_OR_RETURN(athlete, readAthlete(athleteFile));
    } else {
        athlete.code = folder.parent_path().filename().string();
    }
    const auto past = file.isWritable() && !file.recovery() ? file.history() : EditHistory();
    auto document = std::unique_ptr<SessionDocument>(
        new SessionDocument(folder, std::move(file), std::move(athlete)));
    document->bringBackHistory(past);
    return document;
}

SessionDocument::SessionDocument(std::filesystem::path folder, SessionFile file, Athlete athlete)
    : m_folder(std::move(folder)), m_athlete(std::move(athlete)), m_about(aboutIn(file.session())),
      m_read(file.session()), m_record(m_history, m_read),
      m_saver(std::move(file), {.session =
                                    [this] {
                                        auto now = this->session();
                                        m_record.note(now);
                                        return now;
                                    },
                                .edits = [this] { return m_record.edits(); }})
{
    readClicks();
    readOwnMeasures();
    for (const SessionClip& clip : m_read.clips) {
        m_clips.push_back(makeClip(clip));
    }
    connect(&m_history, &QUndoStack::indexChanged, this, [this] { m_record.note(session()); });
    // Queued: the history may not be turned back while it is still taking the edit.
    connect(&m_history, &QUndoStack::indexChanged, this, &SessionDocument::refuseEdits,
            Qt::QueuedConnection);
}

/// Before anybody listens. The document holds what these edits did: none is carried out.
void SessionDocument::bringBackHistory(const EditHistory& past)
{
    const QSignalBlocker quiet(m_history);
    for (const PastEdit& edit : past.edits) {
        m_history.push(new EarlierEdit(*this, edit, m_historyLives));
    }
    m_history.setIndex(static_cast<int>(past.done));
    m_record.beginWith(past);
    m_historyLives = true;
}

/// Every edit passes the history, so here none is forgotten.
void SessionDocument::refuseEdits()
{
    if (!isReadOnly() || m_history.count() == 0) {
        return;
    }
    m_history.setIndex(0);
    m_history.clear();
    emit editRefused();
}

SessionDocument::~SessionDocument()
{
    m_saver.saveNow();
    m_history.clear();
}

std::vector<ClipDocument*> SessionDocument::clips() const
{
    std::vector<ClipDocument*> clips;
    for (const auto& clip : m_clips) {
        clips.push_back(clip.get());
    }
    return clips;
}

ClipDocument* SessionDocument::clipOf(std::string_view condition) const
{
    const auto found = std::ranges::find_if(
        m_clips, [condition](const auto& clip) { return clip->clip().condition == condition; });
    return found == m_clips.end() ? nullptr : found->get();
}

Session SessionDocument::session() const
{
    Session session = m_read;
    session.date = m_about.date;
    session.note = m_about.note;
    session.coach = m_about.coach;
    session.measures = m_about.measures;
    session.cues = m_about.cues;
    session.measuresAfterLooking = m_about.measuresAfterLooking;
    session.stills = m_about.stills;
    session.screening = m_about.screening;
    session.nextRefilm = m_about.nextRefilm;
    session.clips.clear();
    for (const auto& clip : m_clips) {
        session.clips.push_back(clip->clip());
    }
    return session;
}

std::unique_ptr<ClipDocument> SessionDocument::makeClip(SessionClip clip)
{
    auto document =
        std::make_unique<ClipDocument>(m_folder, m_about.date, std::move(clip), m_history);
    connect(document.get(), &ClipDocument::edited, &m_saver, &Saver::editHappened);
    tellAthlete(*document);
    return document;
}

ClipDocument& SessionDocument::insertClip(std::size_t at, std::unique_ptr<ClipDocument> clip)
{
    ClipDocument& inserted = *clip;
    tellAthlete(inserted); // it may have been away while that changed
    m_clips.insert(m_clips.begin() + static_cast<std::ptrdiff_t>(at), std::move(clip));
    m_saver.editHappened();
    emit clipsChanged();
    return inserted;
}

std::unique_ptr<ClipDocument> SessionDocument::takeClip(std::size_t at)
{
    emit clipGoing(m_clips[at].get());
    auto clip = std::move(m_clips[at]);
    m_clips.erase(m_clips.begin() + static_cast<std::ptrdiff_t>(at));
    m_saver.editHappened();
    emit clipsChanged();
    return clip;
}

/// The one set aside, since later edits name it; else a new one.
std::unique_ptr<ClipDocument> SessionDocument::clipFor(const SessionClip& clip)
{
    const auto found = std::ranges::find_if(
        m_aside, [&clip](const auto& aside) { return aside->clip().file == clip.file; });
    if (found == m_aside.end()) {
        return makeClip(clip);
    }
    auto aside = std::move(*found);
    m_aside.erase(found);
    return aside;
}

void SessionDocument::becomeClips(const std::vector<SessionClip>& clips)
{
    const auto isWanted = [&clips](const auto& clip) {
        return std::ranges::find(clips, clip->clip().file, &SessionClip::file) != clips.end();
    };
    for (std::size_t i = m_clips.size(); i > 0; --i) {
        if (!isWanted(m_clips[i - 1])) {
            m_aside.push_back(takeClip(i - 1));
        }
    }
    for (std::size_t i = 0; i < clips.size(); ++i) {
        const auto there =
            std::find_if(m_clips.begin() + static_cast<std::ptrdiff_t>(i), m_clips.end(),
                         [&](const auto& clip) { return clip->clip().file == clips[i].file; });
        if (there == m_clips.end()) {
            insertClip(i, clipFor(clips[i]));
        } else if (const auto at = static_cast<std::size_t>(there - m_clips.begin()); at != i) {
            insertClip(i, takeClip(at));
        }
        bring(*m_clips[i], clips[i]);
    }
    while (m_clips.size() > clips.size()) { // one file twice
        m_aside.push_back(takeClip(m_clips.size() - 1));
    }
}

void SessionDocument::become(const Session& session)
{
    if (auto about = aboutIn(session); !(about == m_about)) {
        replaceAbout(std::move(about));
    }
    becomeClips(session.clips);
}

SessionAbout SessionDocument::replaceAbout(SessionAbout about)
{
    auto before = std::exchange(m_about, std::move(about));
    m_saver.editHappened();
    if (before.coach != m_about.coach) {
        readClicks();
    }
    emit aboutChanged();
    return before;
}

Athlete SessionDocument::replaceAthlete(Athlete athlete)
{
    auto before = std::exchange(m_athlete, std::move(athlete));
    // In a read-only session: another window may have written a newer one.
    const auto file = athleteFileOf(m_folder);
    const auto written = isReadOnly() ? Outcome<void>() : keepAthlete(m_athlete, before, file);
    if (!written) {
        if (written.error().kind == Error::Kind::Inconsistent) {
            m_athlete = readAthlete(file).value_or(m_athlete);
            before = m_athlete; // taking the edit back must not undo theirs
        }
        emit saveFailed(fromUtf8(written.error().sentence));
    }
    for (const auto& clip : m_clips) {
        tellAthlete(*clip);
    }
    emit athleteChanged();
    return before;
}

void SessionDocument::tellAthlete(ClipDocument& clip) const
{
    clip.setAthlete({.name = m_athlete.name,
                     .heightCm = m_athlete.heightCm,
                     .legLengthCm = m_athlete.legLengthCm,
                     .massKg = m_athlete.massKg});
    clip.setClicks(m_clicks);
    clip.setOwnMeasures(m_own);
}

/// A record of coaches that cannot be read leaves the defaults: larger, and so on the safe side.
void SessionDocument::readClicks()
{
    const auto coaches = latemile::readCoaches(libraryOf(m_folder));
    m_clicks = coaches ? clickErrorsOf(*coaches, m_about.coach) : ClickErrors{};
    for (const auto& clip : m_clips) {
        clip->setClicks(m_clicks);
    }
}

Outcome<void> SessionDocument::keepCoach(const Coach& coach)
{
    RETURN_IF_ERROR(latemile::keepCoach(coach, libraryOf(m_folder)));
    readClicks();
    return {};
}

void SessionDocument::readOwnMeasures()
{
    auto own = ownMeasuresIn(libraryOf(m_folder));
    m_ownFault = own ? QString() : fromUtf8(own.error().sentence);
    m_own = own ? std::move(*own) : OwnMeasures();
    for (const auto& clip : m_clips) {
        clip->setOwnMeasures(m_own);
    }
    emit ownMeasuresChanged();
}

Outcome<void> SessionDocument::keepOwnMeasures(const OwnMeasures& own)
{
    RETURN_IF_ERROR(latemile::keepOwnMeasures(own, m_own, libraryOf(m_folder)));
    readOwnMeasures();
    return {};
}

} // namespace latemile::ui
