// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/worker_session.hpp"

#include "core/clip/opened_file.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// While a clip is opened, how often whoever waits for it is asked whether it still should be.
constexpr auto betweenQuestions = std::chrono::milliseconds(200);
/// Room for the largest picture there may be, eight bytes a pixel, and its margins.
constexpr std::uint64_t largestRoom = static_cast<std::uint64_t>(largestPicture) * 8 + (64U << 20U);

tl::unexpected<Error> openingStopped(const std::string& name)
{
    return fail(Error::Kind::Cancelled, "Opening the clip " + name + " was stopped.");
}

} // namespace

WorkerSession::WorkerSession(Channel channel, WorkerProcess process, const WorkerTerms& terms,
                             std::string name, int stop)
    : m_process(std::move(process)), m_channel(std::move(channel)), m_terms(terms),
      m_name(std::move(name)), m_stop(stop)
{
}

Outcome<WorkerSession::Opened> WorkerSession::open(const ClipFile& file, const ClipOptions& options,
                                                   const WorkerTerms& terms, int stop)
{
    auto pair = Channel::makePair();
    const auto fields = options.fieldsAsFrames ? FieldsTaken::Yes : FieldsTaken::No;
    auto process = pair ? WorkerProcess::start(terms.program, pair->second, fields) : std::nullopt;
    if (!process) {
        return fail(Error::Kind::Unsupported,
                    "The decoder of clips could not be started; close other programs and open " +
                        file.name() + " again.");
    }
    pair->second = Descriptor(); // else the worker's end would outlive the worker
    WorkerSession session(std::move(pair->first), *std::move(process), terms, file.name(), stop);
    ASSIGN_OR_RETURN(auto answer, session.opening(file, options));
    return Opened{std::move(session), std::move(answer)};
}

tl::unexpected<Error> WorkerSession::ended(Ending ending)
{
    m_ending = ending;
    switch (ending) {
    case Ending::Stopped:
        return fail(Error::Kind::Cancelled, "Another frame was asked for.");
    case Ending::TooLate:
        return fail(Error::Kind::Damaged, "Reading " + m_name +
                                              " took too long and was given up; copy it to this "
                                              "machine and try again.");
    case Ending::Gone:
        return fail(Error::Kind::Damaged,
                    "The decoder of " + m_name +
                        " broke down on what the file holds; copy the clip again from the camera "
                        "or phone, or export it as H.264.");
    case Ending::Nonsense:
        break;
    }
    return fail(Error::Kind::Damaged,
                "The decoder of " + m_name +
                    " gave answers that cannot be true and was ended; export the clip as H.264.");
}

void WorkerSession::send(Say say, const Packing& body, int descriptor)
{
    // That nobody is there is told when the answer is waited for.
    static_cast<void>(m_channel.send(say, body, descriptor));
}

/// The next message but signs of life; `options` of an opening.
Outcome<Message> WorkerSession::receive(Channel::Clock::time_point start,
                                        const ClipOptions* options)
{
    const bool asks = options && options->goOn;
    auto lastSign = Channel::Clock::now();
    double share = 0;
    while (true) {
        const auto latest =
            std::min(lastSign + m_terms.longestSilence, start + m_terms.longestAnswer);
        const auto now = Channel::Clock::now();
        const auto until = asks ? std::min(latest, now + betweenQuestions) : latest;
        auto message = m_channel.receive({.until = until, .stop = m_stop});
        if (!message && message.error() == Ending::TooLate && Channel::Clock::now() < latest) {
            if (!options->goOn(share)) {
                return openingStopped(m_name);
            }
            continue;
        }
        if (!message) {
            return ended(message.error());
        }
        if (message->say != Say::Alive && message->say != Say::Progress) {
            return *std::move(message);
        }
        lastSign = Channel::Clock::now();
        if (message->say == Say::Progress) {
            Unpacking from(message->body);
            share = std::clamp(from.take<double>(), 0.0, 1.0);
            if (!asks || !from.isWhole() || std::isnan(share)) {
                return ended(Ending::Nonsense);
            }
            if (!options->goOn(share)) {
                return openingStopped(m_name);
            }
            send(Say::GoOn);
        }
    }
}

Outcome<OpeningAnswer> WorkerSession::opening(const ClipFile& file, const ClipOptions& options)
{
    send(Say::Open,
         packed(OpeningQuestion{
             .name = file.path().filename().string(), .size = file.size(), .options = options}),
         file.descriptor());
    ASSIGN_OR_RETURN(const auto message, receive(Channel::Clock::now(), &options));
    if (message.say == Say::Failed) {
        if (auto error = errorIn(message.body)) {
            return tl::unexpected(*std::move(error));
        }
    }
    auto answer = message.say == Say::Opened ? openingAnswer(message.body) : std::nullopt;
    if (!answer) {
        return ended(Ending::Nonsense);
    }
    return *std::move(answer);
}

bool WorkerSession::makeRoom(const Message& message)
{
    Unpacking from(message.body);
    const auto bytes = from.take<std::uint64_t>();
    if (!from.isWhole() || bytes == 0 || bytes > largestRoom) {
        return false;
    }
    m_room.reset();
    m_room = Room::make(static_cast<std::size_t>(bytes));
    if (m_room) {
        send(Say::Room, {}, m_room->descriptor());
    }
    return m_room.has_value();
}

SharedAvFrame WorkerSession::taken(Unpacking& from, PictureTaker& taker) const
{
    const auto said = SentPicture::takenFrom(from);
    return from.isWhole() && m_room ? taker.take(said, *m_room) : nullptr;
}

Outcome<SharedAvFrame> WorkerSession::picture(std::int64_t rank, std::int64_t count,
                                              const Passing& passing, PictureTaker& taker)
{
    send(Say::Ask, Packing().add(rank).add(passing != nullptr));
    SharedAvFrame lastPassed;
    std::int64_t lastRank = -1;
    for (auto start = Channel::Clock::now();;) {
        ASSIGN_OR_RETURN(const auto message, receive(start));
        if (message.say == Say::NeedRoom && makeRoom(message)) {
            continue;
        }
        if (message.say == Say::Failed) {
            if (auto error = errorIn(message.body)) {
                return tl::unexpected(*std::move(error));
            }
        }
        Unpacking from(message.body);
        const auto told = from.take<std::int64_t>();
        const bool isLastPassed = from.takeBool();
        if (message.say == Say::Pictured && told == rank) {
            const auto picture =
                isLastPassed ? (lastRank == rank ? lastPassed : nullptr) : taken(from, taker);
            if (picture && from.isWhole()) {
                return picture;
            }
        } else if (message.say == Say::Passed && passing && !isLastPassed && told >= 0 &&
                   told < count) {
            if (auto picture = taken(from, taker)) {
                send(passing(told, picture) ? Say::GoOn : Say::Abandon);
                lastPassed = std::move(picture);
                lastRank = told;
                start = Channel::Clock::now();
                continue;
            }
        }
        return ended(Ending::Nonsense);
    }
}

} // namespace latemile
