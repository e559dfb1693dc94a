// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_source.hpp"

#include "core/clip/held_pictures.hpp"
#include "core/clip/open_clip.hpp"
#include "core/clip/read_ahead.hpp"

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <future>
#include <mutex>
#include <set>
#include <thread>

#include <unistd.h>

namespace latemile {

namespace {

struct Question {
    std::int64_t rank{};
    FrameSource::Answer answer;
    bool isWaitedFor = false; ///< by frame(): answered whatever else is asked
};

} // namespace

struct FrameSource::Inside {
    // Set before the thread starts, then read from any thread.
    OpenClip clip; // its pictures: decode thread only
    UprightMaker upright;

    // Decode thread only.
    std::set<std::int64_t> lost;

    // Guarded by mutex.
    std::mutex mutex;
    std::condition_variable_any changed;
    std::optional<Question> newest;
    std::deque<Question> waiting; // of frame(): each is answered
    std::optional<Question> aside;
    HeldPictures held;
    Travel travel = Travel::Forward;

    std::jthread thread; // last: starts when the rest is built, joined before it goes

    Inside(OpenClip opened, std::size_t budget)
        : clip(std::move(opened)), upright(clip.shape), held(budget)
    {
    }

    void run(const std::stop_token& stop);
    void moveHead(std::int64_t rank);
    std::optional<Question> takeQuestion();
    std::optional<std::int64_t> takeReadAhead();
    std::optional<Question> takeAside();
    void answerAside(Question question, const std::stop_token& stop);
    void answer(const Question& question, const std::stop_token& stop);
    bool answerNewestIfHeld();
    bool passes(std::int64_t rank, const SharedAvFrame& picture);
    Outcome<Frame> shown(std::int64_t rank, const SharedAvFrame& picture) const;
    Outcome<Frame> noSuchFrame(FrameNumber frame) const;
    void readAhead(std::int64_t rank, const std::stop_token& stop);
};

/// The lock is held by the caller.
void FrameSource::Inside::moveHead(std::int64_t rank)
{
    if (rank != held.head()) {
        travel = rank > held.head() ? Travel::Forward : Travel::Backward;
        held.setHead(rank);
    }
}

std::optional<Question> FrameSource::Inside::takeQuestion()
{
    const std::lock_guard lock(mutex);
    if (!waiting.empty()) {
        auto question = std::move(waiting.front());
        waiting.pop_front();
        moveHead(question.rank);
        return question;
    }
    return std::exchange(newest, std::nullopt);
}

std::optional<std::int64_t> FrameSource::Inside::takeReadAhead()
{
    const std::lock_guard lock(mutex);
    return nextToRead({.held = held,
                       .frames = clip.index.size(),
                       .travel = travel,
                       .groupStart = [this](auto rank) { return clip.pictures->groupStart(rank); },
                       .isLost = [this](auto rank) { return lost.contains(rank); }});
}

std::optional<Question> FrameSource::Inside::takeAside()
{
    const std::lock_guard lock(mutex);
    return std::exchange(aside, std::nullopt);
}

Outcome<Frame> FrameSource::Inside::shown(std::int64_t rank, const SharedAvFrame& picture) const
{
    ASSIGN_OR_RETURN(auto made, upright.make(*picture));
    return Frame{{rank}, clip.index.time({rank}), std::move(made)};
}

Outcome<Frame> FrameSource::Inside::noSuchFrame(FrameNumber frame) const
{
    return fail(Error::Kind::NotFound, "The clip has no frame " + std::to_string(frame.value) +
                                           "; its frames are 0 to " +
                                           std::to_string(clip.index.size() - 1) + ".");
}

bool FrameSource::Inside::passes(std::int64_t rank, const SharedAvFrame& picture)
{
    const std::lock_guard lock(mutex);
    held.insert(rank, picture);
    return !newest && waiting.empty();
}

/// A question whose frame is held need not wait for the decoding that goes on.
bool FrameSource::Inside::answerNewestIfHeld()
{
    std::unique_lock lock(mutex);
    const auto picture = newest ? held.find(newest->rank) : nullptr;
    if (!picture) {
        return false;
    }
    const auto question = *std::exchange(newest, std::nullopt);
    lock.unlock();
    question.answer(shown(question.rank, picture));
    return true;
}

/// Once begun a question is answered, though a newer one waits: else a coach who drags quickly
/// through a clip would see nothing until the hand rests. Only a newer one answered meanwhile,
/// because its frame was held, ends it.
void FrameSource::Inside::answer(const Question& question, const std::stop_token& stop)
{
    SharedAvFrame picture;
    {
        const std::lock_guard lock(mutex);
        picture = held.find(question.rank);
    }
    if (picture) {
        question.answer(shown(question.rank, picture));
        return;
    }
    bool isOvertaken = false;
    const auto passing = [&](std::int64_t rank, const SharedAvFrame& passed) {
        if (!passes(rank, passed)) {
            const bool answeredNewer = answerNewestIfHeld();
            isOvertaken = isOvertaken || (answeredNewer && !question.isWaitedFor);
        }
        return !stop.stop_requested() && !isOvertaken;
    };
    const auto found = clip.pictures->picture(question.rank, passing);
    if (stop.stop_requested() || isOvertaken) {
        return;
    }
    if (!found) {
        lost.insert(question.rank);
        question.answer(tl::unexpected(found.error()));
        return;
    }
    question.answer(shown(question.rank, *found));
}

/// Gives way to a question unless its frame is held, or is about to come out of this very run.
void FrameSource::Inside::readAhead(std::int64_t target, const std::stop_token& stop)
{
    const auto passing = [&](std::int64_t rank, const SharedAvFrame& passed) {
        if (!passes(rank, passed)) {
            answerNewestIfHeld();
        }
        const std::lock_guard lock(mutex);
        const bool comesSoon = newest && newest->rank > rank && newest->rank <= target;
        return !stop.stop_requested() && waiting.empty() && (!newest || comesSoon);
    };
    const auto found = clip.pictures->picture(target, passing);
    if (!found && found.error().kind != Error::Kind::Cancelled) {
        lost.insert(target);
    }
}

/// Begun again later where a question came in between.
void FrameSource::Inside::answerAside(Question question, const std::stop_token& stop)
{
    SharedAvFrame picture;
    {
        const std::lock_guard lock(mutex);
        picture = held.find(question.rank);
    }
    if (!picture) {
        const auto passing = [&](std::int64_t rank, const SharedAvFrame& passed) {
            return passes(rank, passed) && !stop.stop_requested();
        };
        const auto found = clip.pictures->picture(question.rank, passing);
        if (!found && found.error().kind == Error::Kind::Cancelled) {
            const std::lock_guard lock(mutex);
            if (!aside) {
                aside = std::move(question);
            }
            return;
        }
        if (!found) {
            lost.insert(question.rank);
            question.answer(tl::unexpected(found.error()));
            return;
        }
        picture = *found;
    }
    question.answer(shown(question.rank, picture));
}

void FrameSource::Inside::run(const std::stop_token& stop)
{
    while (!stop.stop_requested()) {
        if (const auto question = takeQuestion()) {
            answer(*question, stop);
        } else if (const auto rank = takeReadAhead()) {
            readAhead(*rank, stop);
        } else if (auto small = takeAside()) {
            answerAside(std::move(*small), stop);
        } else {
            std::unique_lock lock(mutex);
            const auto head = held.head();
            changed.wait(lock, stop, [&] {
                return newest || aside || !waiting.empty() || held.head() != head;
            });
        }
    }
}

std::size_t FrameSource::defaultBudget()
{
    constexpr std::size_t most = std::size_t{2} << 30;
    const auto pages = ::sysconf(_SC_PHYS_PAGES);
    const auto pageBytes = ::sysconf(_SC_PAGESIZE);
    if (pages <= 0 || pageBytes <= 0) {
        return most / 4;
    }
    return std::min(most,
                    static_cast<std::size_t>(pages) * static_cast<std::size_t>(pageBytes) / 4);
}

Outcome<std::unique_ptr<FrameSource>> FrameSource::open(const std::filesystem::path& file,
                                                        const ClipOptions& options,
                                                        std::size_t budgetBytes)
{
    ASSIGN_OR_RETURN(auto clip, openClip(file, options));
    auto inside = std::make_unique<Inside>(std::move(clip), budgetBytes);
    auto& shared = *inside;
    inside->thread = std::jthread([&shared](const std::stop_token& stop) { shared.run(stop); });
    return std::unique_ptr<FrameSource>(new FrameSource(std::move(inside)));
}

FrameSource::FrameSource(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
FrameSource::~FrameSource()
{
    m_inside->thread.request_stop();
    m_inside->clip.pictures->giveUp();
}

const ClipFacts& FrameSource::facts() const
{
    return m_inside->clip.facts;
}

const FrameIndex& FrameSource::index() const
{
    return m_inside->clip.index;
}

void FrameSource::ask(FrameNumber frame, Answer answer)
{
    const bool isThere = m_inside->clip.index.contains(frame);
    std::optional<Question> replaced; // whatever its answer owns is freed without the lock
    {
        const std::lock_guard lock(m_inside->mutex);
        const auto rank = isThere ? frame.value : m_inside->held.head();
        if (!isThere) {
            answer = [this, frame, tell = std::move(answer)](const Outcome<Frame>&) {
                tell(m_inside->noSuchFrame(frame));
            };
        }
        replaced = std::exchange(m_inside->newest, Question{rank, std::move(answer), false});
        m_inside->moveHead(rank);
    }
    m_inside->changed.notify_all();
}

void FrameSource::askAside(FrameNumber frame, Answer answer)
{
    if (!m_inside->clip.index.contains(frame)) {
        answer(m_inside->noSuchFrame(frame));
        return;
    }
    std::optional<Question> replaced;
    {
        const std::lock_guard lock(m_inside->mutex);
        replaced = std::exchange(m_inside->aside, Question{frame.value, std::move(answer), false});
    }
    m_inside->changed.notify_all();
}

std::optional<Frame> FrameSource::held(FrameNumber frame) const
{
    SharedAvFrame picture;
    {
        const std::lock_guard lock(m_inside->mutex);
        picture = m_inside->held.find(frame.value);
        if (picture) {
            m_inside->moveHead(frame.value);
        }
    }
    if (!picture) {
        return std::nullopt;
    }
    m_inside->changed.notify_all();
    auto shown = m_inside->shown(frame.value, picture);
    return shown ? std::optional(*std::move(shown)) : std::nullopt;
}

Outcome<Frame> FrameSource::frame(FrameNumber frame)
{
    if (!m_inside->clip.index.contains(frame)) {
        return m_inside->noSuchFrame(frame);
    }
    // Shared, since the answering thread may still be within set_value when we have the answer.
    const auto promise = std::make_shared<std::promise<Outcome<Frame>>>();
    auto future = promise->get_future();
    auto tell = [promise](Outcome<Frame> found) { promise->set_value(std::move(found)); };
    {
        const std::lock_guard lock(m_inside->mutex);
        m_inside->waiting.push_back({frame.value, std::move(tell), true});
    }
    m_inside->changed.notify_all();
    return future.get();
}

} // namespace latemile
