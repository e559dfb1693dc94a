// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/clip_service.hpp"

#include "core/clip/worker/sent_picture.hpp"

namespace latemile {

namespace {

constexpr auto betweenSigns = std::chrono::milliseconds(500);

} // namespace

void ClipService::send(Say say, const Packing& body)
{
    m_isOver = m_isOver || !m_channel.send(say, body);
    m_lastSign = Channel::Clock::now();
}

std::optional<Message> ClipService::receive()
{
    if (m_isOver) {
        return std::nullopt;
    }
    auto message = m_channel.receive();
    m_isOver = !message;
    return message ? std::optional(*std::move(message)) : std::nullopt;
}

void ClipService::giveSign()
{
    if (Channel::Clock::now() - m_lastSign > betweenSigns) {
        send(Say::Alive);
    }
}

void ClipService::refuse(const std::string& sentence, const std::string& detail)
{
    if (receive()) {
        send(Say::Failed, packed(Error{Error::Kind::Unsupported, sentence, detail}));
    }
}

void ClipService::run()
{
    if (auto question = receive()) {
        open(*std::move(question));
    }
    while (m_clip && !m_isOver) {
        if (const auto question = receive()) {
            answer(*question);
        }
    }
}

void ClipService::open(Message question)
{
    auto asked = openingQuestion(question.body);
    if (question.say != Say::Open || !asked || !question.file.isOpen()) {
        return;
    }
    ClipFile file(std::move(question.file), asked->size, asked->name);
    file.setOnRead([this] { giveSign(); });
    const bool isAsked = asked->options.goOn != nullptr;
    asked->options.goOn = [this, isAsked](double share) { return mayGoOn(share, isAsked); };
    auto clip = openHere(file, asked->options);
    if (!clip) {
        send(Say::Failed, packed(clip.error()));
        return;
    }
    send(Say::Opened, packed(OpeningAnswer{.shape = clip->shape,
                                           .facts = clip->facts,
                                           .index = clip->index,
                                           .groupStarts = clip->pictures->groupStarts()}));
    m_clip.emplace(*std::move(clip));
}

bool ClipService::mayGoOn(double share, bool isAsked)
{
    if (!isAsked) {
        giveSign();
        return !m_isOver;
    }
    send(Say::Progress, Packing().add(share));
    return mayGoOn();
}

bool ClipService::mayGoOn()
{
    const auto word = receive();
    m_isOver = m_isOver || (word->say != Say::GoOn && word->say != Say::Abandon);
    return !m_isOver && word->say == Say::GoOn;
}

bool ClipService::isRoomFor(std::size_t bytes)
{
    if (m_room && m_room->size() >= bytes) {
        return true;
    }
    send(Say::NeedRoom, Packing().add(static_cast<std::uint64_t>(bytes)));
    auto word = receive();
    m_isOver = m_isOver || word->say != Say::Room;
    m_room = m_isOver ? std::nullopt : Room::join(std::move(word->file), bytes);
    m_isOver = m_isOver || !m_room;
    return !m_isOver;
}

/// False where it could not be given: of a kind that no picture is made of, or nobody is there.
bool ClipService::give(Say say, std::int64_t rank, const AVFrame& picture)
{
    const auto said = saidOf(picture);
    const auto bytes = roomFor(said);
    if (!bytes || !isRoomFor(*bytes)) {
        return false;
    }
    put(picture, said, *m_room);
    Packing body;
    body.add(rank).add(false);
    said.addTo(body);
    send(say, body);
    return !m_isOver;
}

bool ClipService::passes(std::int64_t rank, const SharedAvFrame& picture, bool isWanted)
{
    if (!isWanted) {
        giveSign();
        return !m_isOver;
    }
    if (!give(Say::Passed, rank, *picture)) {
        return !m_isOver;
    }
    m_lastPassed = picture;
    return mayGoOn();
}

void ClipService::answer(const Message& question)
{
    Unpacking from(question.body);
    const auto rank = from.take<std::int64_t>();
    const bool isPassingWanted = from.takeBool();
    m_isOver = question.say != Say::Ask || !from.isWhole() || rank < 0 ||
               rank >= m_clip->pictures->count();
    if (m_isOver) {
        return;
    }
    const auto passing = [&](std::int64_t passed, const SharedAvFrame& picture) {
        return passes(passed, picture, isPassingWanted);
    };
    const auto found = m_clip->pictures->picture(rank, passing);
    const auto lastPassed = std::exchange(m_lastPassed, nullptr);
    if (!found) {
        send(Say::Failed, packed(found.error()));
    } else if (*found == lastPassed) {
        send(Say::Pictured, Packing().add(rank).add(true));
    } else if (!give(Say::Pictured, rank, **found)) {
        send(Say::Failed,
             packed(Error{Error::Kind::Unsupported,
                          "A picture of this kind cannot be shown here; export the clip as H.264.",
                          {}}));
    }
}

} // namespace latemile
