// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/clip_document.hpp"

#include "core/store/linked_film.hpp"
#include "core/store/marked_clip.hpp"
#include "ui/document/clip_state.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>
#include <memory>
#include <utility>

namespace latemile::ui {

ClipDocument::ClipDocument(std::filesystem::path sessionFolder, std::string date, SessionClip clip,
                           QUndoStack& history)
    : m_folder(std::move(sessionFolder)), m_date(std::move(date)), m_clip(std::move(clip)),
      m_history(history)
{
    m_pause.setSingleShot(true);
    m_pause.setInterval(40);
    connect(&m_pause, &QTimer::timeout, this, &ClipDocument::readNow);
    connect(&m_feed, &FrameFeed::opened, this, &ClipDocument::takeOpened);
    connect(&m_feed, &FrameFeed::failed, this, [this](const QString& sentence) {
        const auto lost = lostFilmSentence(file());
        m_fault = lost.empty() ? sentence : fromUtf8(lost);
        emit failed(m_fault);
    });
    openFile();
}

ClipDocument::~ClipDocument() = default;

ClipDetails ClipDocument::details() const
{
    return detailsOf(m_clip);
}

std::filesystem::path ClipDocument::file() const
{
    return m_folder / m_clip.file;
}

bool ClipDocument::isNear(Foot foot) const
{
    return foot == (m_clip.scene.view == View::RightSide ? Foot::Right : Foot::Left);
}

void ClipDocument::setAthlete(const AthleteFacts& athlete)
{
    m_athlete = athlete;
    readSoon();
}

void ClipDocument::setClicks(const ClickErrors& clicks)
{
    if (m_clicks != clicks) {
        m_clicks = clicks;
        readSoon();
    }
}

void ClipDocument::setOwnMeasures(const OwnMeasures& own)
{
    if (m_own != own) {
        m_own = own;
        readSoon();
    }
}

std::optional<Mark> ClipDocument::putMark(const MarkKey& key, const std::optional<Mark>& mark)
{
    std::optional<Mark> before;
    if (const Mark* found = m_clip.marking.find(key)) {
        before = *found;
    }
    if (mark) {
        m_clip.marking.marks[key] = *mark;
    } else {
        m_clip.marking.marks.erase(key);
    }
    return before;
}

std::optional<Mark> ClipDocument::replaceMark(const MarkKey& key, const std::optional<Mark>& mark)
{
    auto before = putMark(key, mark);
    readSoon();
    emit markChanged(key);
    emit edited();
    return before;
}

void ClipDocument::exchangeMarks(std::map<MarkKey, std::optional<Mark>>& marks)
{
    if (marks.empty()) {
        return;
    }
    for (auto& [key, mark] : marks) {
        mark = putMark(key, mark);
    }
    readSoon();
    emit markChanged(marks.begin()->first);
    emit edited();
}

bool ClipDocument::replaceUnseen(const MarkKey& key, bool unseen)
{
    const bool before = m_clip.marking.unseen.contains(key);
    if (unseen) {
        m_clip.marking.unseen.insert(key);
    } else {
        m_clip.marking.unseen.erase(key);
    }
    emit markChanged(key);
    emit edited();
    return before;
}

std::vector<Stance> ClipDocument::replaceStances(std::vector<Stance> stances)
{
    std::ranges::stable_sort(stances, {}, &Stance::contact);
    auto before = std::exchange(m_clip.marking.stances, std::move(stances));
    if (isOpen()) {
        m_steps = stepsOf(m_clip.marking.stances, index());
    }
    readSoon();
    emit stancesChanged();
    emit edited();
    return before;
}

Scene ClipDocument::replaceScene(Scene scene)
{
    auto before = std::exchange(m_clip.scene, std::move(scene));
    if (before.captureRate != m_clip.scene.captureRate) {
        openFile();
    }
    readSoon();
    emit sceneChanged();
    emit edited();
    return before;
}

ClipDetails ClipDocument::replaceDetails(ClipDetails details)
{
    const ClipDetails before = this->details();
    m_clip.condition = std::move(details.condition);
    m_clip.minute = details.minute;
    m_clip.inclinePercent = details.inclinePercent;
    m_clip.shoes = std::move(details.shoes);
    m_clip.exertion = details.exertion;
    m_clip.pain = details.pain;
    readSoon();
    emit detailsChanged();
    emit edited();
    return before;
}

void ClipDocument::openFile()
{
    m_fault.clear();
    m_feed.open(file(), clipOptions());
}

ClipOptions ClipDocument::clipOptions() const
{
    ClipOptions options;
    options.captureRate = m_clip.scene.captureRate;
    return options;
}

void ClipDocument::takeOpened()
{
    m_steps = stepsOf(m_clip.marking.stances, index());
    readSoon();
    emit opened();
    emit stancesChanged();
}

MarkedClip ClipDocument::marked() const
{
    return markedClipOf(m_clip, m_date, m_feed.facts(), m_feed.index(), m_athlete, m_clicks);
}

void ClipDocument::readSoon()
{
    m_pause.start();
}

void ClipDocument::readNow()
{
    if (!isOpen()) {
        return;
    }
    if (m_reading) {
        m_readAgain = true;
        return;
    }
    m_reading = true;
    m_readAgain = false;
    m_reader.post([this, input = marked(), own = m_own] {
        auto result = std::make_shared<Outcome<Readings>>(readingsOf(input, false, own));
        QMetaObject::invokeMethod(
            this,
            [this, result] {
                m_reading = false;
                m_readingsFault.clear();
                m_readings.reset();
                if (*result) {
                    m_readings = std::move(**result);
                } else {
                    m_readingsFault = fromUtf8(result->error().sentence);
                }
                if (m_readAgain) {
                    readNow();
                }
                emit readingsChanged();
            },
            Qt::QueuedConnection);
    });
}

} // namespace latemile::ui
