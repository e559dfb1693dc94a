// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/refilms/refilms_maker.hpp"

#include "core/sheet/sheet_cues.hpp"
#include "core/store/athlete_sessions.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/resource_file.hpp"
#include "ui/text/words.hpp"

#include <QStringList>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

/// The clip of a condition filmed from where the open session's is; on a day filmed from the other
/// side alone there is none, and the day says so.
std::optional<Readings> readClip(const Session& session, std::string_view condition,
                                 std::optional<View> view, const AthleteFacts& athlete,
                                 const OwnMeasures& own, FilmingDay& day)
{
    const SessionClip* any = findClip(session, condition);
    const SessionClip* clip = view ? findClip(session, condition, *view) : any;
    if (clip == nullptr) {
        if (any != nullptr) {
            day.fault = RefilmsMaker::tr("the %1 clip is filmed from the %2, not from the %3.")
                            .arg(wordForCondition(any->condition), wordFor(any->scene.view),
                                 wordFor(*view));
        }
        return std::nullopt;
    }
    auto readings = readingsOf(day.folder, session, *clip, athlete, own);
    if (!readings) {
        day.fault = fromUtf8(readings.error().sentence);
        return std::nullopt;
    }
    return std::move(*readings);
}

void takeCues(FilmingDay& day, const Session& session, const std::vector<Cue>& cues)
{
    day.cues = session.cues;
    day.suggested = session.cues.empty();
    if (day.fresh && day.fatigued) {
        day.cues = cuesOnSheet(session, *day.fresh, *day.fatigued, cues);
    }
}

void readDay(FilmingDay& day, const CourseViews& views, const AthleteFacts& athlete,
             const OwnMeasures& own, const std::vector<Cue>& cues)
{
    const auto session = readSession(day.folder);
    if (!session) {
        day.fault = fromUtf8(session.error().sentence);
        return;
    }
    day.date = session->date;
    day.fresh = readClip(*session, "fresh", views.fresh, athlete, own, day);
    day.fatigued = readClip(*session, "fatigued", views.fatigued, athlete, own, day);
    takeCues(day, *session, cues);
}

/// The open session's clip of a condition: filmed from a side, as those of the other days.
const ClipDocument* sideClipOf(const SessionDocument& session, std::string_view condition)
{
    for (const ClipDocument* clip : session.clips()) {
        if (clip->clip().condition == condition && isSideView(clip->scene().view)) {
            return clip;
        }
    }
    return nullptr;
}

std::optional<View> viewOf(const ClipDocument* clip)
{
    return clip == nullptr ? std::nullopt : std::optional(clip->scene().view);
}

std::vector<Readings> readingsOfDays(const std::vector<FilmingDay>& days,
                                     std::optional<Readings> FilmingDay::*condition)
{
    std::vector<Readings> readings;
    for (const FilmingDay& day : days) {
        if (day.*condition) {
            readings.push_back(*(day.*condition));
        }
    }
    return readings;
}

} // namespace

RefilmsMaker::RefilmsMaker(SessionDocument& session, QObject* parent)
    : QObject(parent), m_session(session)
{
    if (auto cues = readCues(resourceFile("cues.json"))) {
        m_cues = std::move(*cues);
    }
    connect(&session, &SessionDocument::clipsChanged, this, &RefilmsMaker::follow);
    connect(&session, &SessionDocument::aboutChanged, this, &RefilmsMaker::takeOpenDay);
    connect(&session, &SessionDocument::ownMeasuresChanged, this, &RefilmsMaker::readOthers);
    m_views = {viewOf(sideClipOf(session, "fresh")), viewOf(sideClipOf(session, "fatigued"))};
    follow();
    readOthers();
}

void RefilmsMaker::follow()
{
    for (ClipDocument* clip : m_session.clips()) {
        connect(clip, &ClipDocument::readingsChanged, this, &RefilmsMaker::takeOpenDay,
                Qt::UniqueConnection);
        connect(clip, &ClipDocument::sceneChanged, this, &RefilmsMaker::takeViews,
                Qt::UniqueConnection);
        connect(clip, &ClipDocument::detailsChanged, this, &RefilmsMaker::takeViews,
                Qt::UniqueConnection);
    }
    takeViews();
    takeOpenDay();
}

void RefilmsMaker::takeViews()
{
    const CourseViews views{viewOf(sideClipOf(m_session, "fresh")),
                            viewOf(sideClipOf(m_session, "fatigued"))};
    if (views != m_views) {
        m_views = views;
        readOthers();
    }
}

RefilmsMaker::~RefilmsMaker() = default;

void RefilmsMaker::readOthers()
{
    ++m_reading;
    const Athlete& known = m_session.athlete();
    const AthleteFacts athlete{.name = known.name,
                               .heightCm = known.heightCm,
                               .legLengthCm = known.legLengthCm,
                               .massKg = known.massKg};
    for (const auto& folder : sessionFoldersOf(athleteFileOf(m_session.folder()).parent_path())) {
        std::error_code ignored;
        if (std::filesystem::equivalent(folder, m_session.folder(), ignored)) {
            continue;
        }
        ++m_waitsFor;
        m_worker.post([this, folder, athlete, views = m_views, own = m_session.ownMeasures(),
                       cues = m_cues, reading = m_reading] {
            auto day = std::make_shared<FilmingDay>();
            day->folder = folder;
            day->date = folder.filename().string();
            readDay(*day, views, athlete, own, cues);
            QMetaObject::invokeMethod(
                this,
                [this, day, reading] {
                    --m_waitsFor;
                    if (reading == m_reading) {
                        takeDay(day);
                    }
                },
                Qt::QueuedConnection);
        });
    }
}

void RefilmsMaker::takeDay(const std::shared_ptr<FilmingDay>& day)
{
    std::erase_if(m_days, [&](const FilmingDay& held) { return held.folder == day->folder; });
    m_days.push_back(std::move(*day));
    std::ranges::sort(m_days, {}, &FilmingDay::date);
    make();
}

void RefilmsMaker::takeOpenDay()
{
    auto day = std::make_shared<FilmingDay>();
    day->folder = m_session.folder();
    day->date = m_session.about().date;
    const auto take = [&](std::string_view condition) -> std::optional<Readings> {
        const ClipDocument* clip = sideClipOf(m_session, condition);
        if (clip == nullptr) {
            return std::nullopt;
        }
        if (!clip->readingsFault().isEmpty()) {
            day->fault = clip->readingsFault();
        }
        return clip->readings();
    };
    day->fresh = take("fresh");
    day->fatigued = take("fatigued");
    Session said;
    said.measures = m_session.about().measures;
    said.cues = m_session.about().cues;
    said.screening = m_session.about().screening;
    for (const ClipDocument* clip : m_session.clips()) {
        said.clips.emplace_back().pain = clip->clip().pain;
    }
    takeCues(*day, said, m_cues);
    takeDay(day);
}

void RefilmsMaker::make()
{
    m_fresh = coursesOf(readingsOfDays(m_days, &FilmingDay::fresh));
    m_fatigued = coursesOf(readingsOfDays(m_days, &FilmingDay::fatigued));
    emit made();
}

RefilmsMaker::Worked RefilmsMaker::cueWorkedOn(const FilmingDay& day) const
{
    QStringList texts;
    for (const std::string& id : day.cues) {
        const auto cue = std::ranges::find(m_cues, id, &Cue::id);
        texts.append(cue == m_cues.end() ? fromUtf8(id) : fromUtf8(cue->think));
    }
    return {texts.join(QStringLiteral("; ")), day.suggested};
}

} // namespace latemile::ui
