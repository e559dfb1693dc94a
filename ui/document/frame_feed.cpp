// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/frame_feed.hpp"

#include "ui/text/words.hpp"

#include <QLoggingCategory>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

Q_LOGGING_CATEGORY(feedLog, "latemile.feed")

/// Two clips are open side by side on the comparison page.
std::size_t budgetOfOneClip()
{
    return FrameSource::defaultBudget() / 3;
}

} // namespace

FrameFeed::FrameFeed(QObject* parent) : QObject(parent) {}

FrameFeed::~FrameFeed()
{
    stopOpening();
}

void FrameFeed::open(const std::filesystem::path& file, const ClipOptions& options)
{
    const int opening = ++m_opening;
    stopOpening();
    m_source.reset();
    m_waiting = false;
    m_waitingSmall = false;
    m_stop = std::make_shared<std::atomic<bool>>(false);
    ClipOptions asked = options;
    asked.goOn = [this, opening, stop = m_stop, told = -1](double share) mutable {
        const int percent = static_cast<int>(100 * share);
        if (percent != told) {
            told = percent;
            QMetaObject::invokeMethod(
                this, [this, percent, opening] { tellOpening(percent, opening); },
                Qt::QueuedConnection);
        }
        return !*stop;
    };
    m_opener.post([this, file, asked, opening] {
        auto result = std::make_shared<Outcome<std::unique_ptr<FrameSource>>>(
            FrameSource::open(file, asked, budgetOfOneClip()));
        QMetaObject::invokeMethod(
            this, [this, result, opening] { take(result, opening); }, Qt::QueuedConnection);
    });
}

void FrameFeed::stopOpening()
{
    if (m_stop) {
        *m_stop = true;
    }
}

void FrameFeed::tellOpening(int percent, int opening)
{
    if (opening == m_opening && !m_source) {
        emit this->opening(percent);
    }
}

void FrameFeed::take(const std::shared_ptr<Outcome<std::unique_ptr<FrameSource>>>& result,
                     int opening)
{
    if (opening != m_opening) {
        return;
    }
    if (!*result) {
        qCWarning(feedLog) << fromUtf8(result->error().detail);
        emit failed(fromUtf8(result->error().sentence));
        return;
    }
    m_source = std::move(**result);
    emit opened();
    askNext();
    askNextSmall();
}

const ClipFacts& FrameFeed::facts() const
{
    return m_source->facts();
}

const FrameIndex& FrameFeed::index() const
{
    return m_source->index();
}

void FrameFeed::ask(QObject* asker, FrameNumber frame, Answer answer)
{
    std::erase_if(m_questions, [asker](const Question& q) { return !q.asker || q.asker == asker; });
    if (m_source) {
        if (const auto held = m_source->held(frame)) {
            // An older question still being decoded would be answered after this one.
            if (m_asked.asker == asker) {
                m_asked.asker.clear();
            }
            answer(*held);
            return;
        }
    }
    m_questions.push_back({asker, frame, std::move(answer)});
    askNext();
}

void FrameFeed::askSmall(QObject* asker, FrameNumber frame, Answer answer)
{
    m_small.push_back({asker, frame, std::move(answer)});
    askNextSmall();
}

void FrameFeed::dropSmall(QObject* asker)
{
    std::erase_if(m_small, [asker](const Question& q) { return !q.asker || q.asker == asker; });
}

FrameSource::Answer FrameFeed::brought(void (FrameFeed::*taken)(const Outcome<Frame>&))
{
    return [this, taken, opening = m_opening](Outcome<Frame> frame) {
        auto result = std::make_shared<Outcome<Frame>>(std::move(frame));
        QMetaObject::invokeMethod(
            this,
            [this, taken, result, opening] {
                // An answer of the source before belongs to nobody now.
                if (opening == m_opening) {
                    (this->*taken)(*result);
                }
            },
            Qt::QueuedConnection);
    };
}

void FrameFeed::askNext()
{
    if (!m_source || m_waiting || m_questions.empty()) {
        return;
    }
    m_asked = std::move(m_questions.front());
    m_questions.erase(m_questions.begin());
    m_waiting = true;
    m_source->ask(m_asked.frame, brought(&FrameFeed::answered));
}

void FrameFeed::askNextSmall()
{
    if (!m_source || m_waitingSmall || m_small.empty()) {
        return;
    }
    m_askedSmall = std::move(m_small.front());
    m_small.pop_front();
    m_waitingSmall = true;
    m_source->askAside(m_askedSmall.frame, brought(&FrameFeed::answeredSmall));
}

void FrameFeed::answered(const Outcome<Frame>& result)
{
    m_waiting = false;
    const Question question = std::exchange(m_asked, {});
    if (!result) {
        qCWarning(feedLog) << fromUtf8(result.error().detail);
        emit failed(fromUtf8(result.error().sentence));
    } else if (question.asker) {
        question.answer(*result);
    }
    askNext();
}

/// A small picture that cannot be had stays empty: the frame itself tells why when it is shown.
void FrameFeed::answeredSmall(const Outcome<Frame>& result)
{
    m_waitingSmall = false;
    const Question question = std::exchange(m_askedSmall, {});
    if (result && question.asker) {
        question.answer(*result);
    }
    askNextSmall();
}

} // namespace latemile::ui
