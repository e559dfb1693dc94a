// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/refilms/refilms_maker.hpp"

#include "core/store/athlete_sessions.hpp"
#include "ui/document/session_document.hpp"
#include "ui/sheet_page/resource_file.hpp"
#include "ui/text/words.hpp"

#include <QStringList>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

std::optional<Readings> readClip(const Session& session, std::string_view condition,
                                 const AthleteFacts& athlete, FilmingDay& day)
{
    const SessionClip* clip = findClip(session, condition);
    if (clip == nullptr) {
        return std::nullopt;
    }
    auto readings = readingsOf(day.folder, session, *clip, athlete);
    if (!readings) {
        day.fault = fromUtf8(readings.error().sentence);
        return std::nullopt;
    }
    return std::move(*readings);
}

void readDay(FilmingDay& day, const AthleteFacts& athlete)
{
    const auto session = readSession(day.folder);
    if (!session) {
        day.fault = fromUtf8(session.error().sentence);
        return;
    }
    day.date = session->date;
    day.cues = session->cues;
    day.fresh = readClip(*session, "fresh", athlete, day);
    day.fatigued = readClip(*session, "fatigued", athlete, day);
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
    const auto follow = [this] {
        for (ClipDocument* clip : m_session.clips()) {
            connect(clip, &ClipDocument::readingsChanged, this, &RefilmsMaker::takeOpenDay,
                    Qt::UniqueConnection);
        }
        takeOpenDay();
    };
    connect(&session, &SessionDocument::clipsChanged, this, follow);
    connect(&session, &SessionDocument::aboutChanged, this, &RefilmsMaker::takeOpenDay);
    follow();
    readOthers();
}

RefilmsMaker::~RefilmsMaker() = default;

void RefilmsMaker::readOthers()
{
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
        m_worker.post([this, folder, athlete] {
            auto day = std::make_shared<FilmingDay>();
            day->folder = folder;
            day->date = folder.filename().string();
            readDay(*day, athlete);
            QMetaObject::invokeMethod(
                this,
                [this, day] {
                    --m_waitsFor;
                    takeDay(day);
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
    day->cues = m_session.about().cues;
    const auto take = [&](std::string_view condition) -> std::optional<Readings> {
        const ClipDocument* clip = m_session.clipOf(condition);
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
    if (!texts.isEmpty() || !day.fresh || !day.fatigued) {
        return {texts.join(QStringLiteral("; ")), false};
    }
    const Comparison comparison = compare(*day.fresh, *day.fatigued);
    for (const FittingCue& fitting : fittingCues(comparison, m_cues)) {
        texts.append(fromUtf8(fitting.cue->think));
    }
    return {texts.join(QStringLiteral("; ")), true};
}

} // namespace latemile::ui
