// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/open_clip.hpp"
#include "core/clip/worker/channel.hpp"
#include "core/clip/worker/opening_message.hpp"
#include "core/clip/worker/room.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace latemile {

/// The worker's side of the talk: opens the one clip it is given, then answers for its pictures.
class ClipService {
public:
    explicit ClipService(Channel channel) : m_channel(std::move(channel)) {}

    /// Until the program closes its end.
    void run();
    /// Answers the first question with an error.
    void refuse(const std::string& sentence, const std::string& detail);

private:
    void open(Message question);
    void answer(const Message& question);
    [[nodiscard]] bool mayGoOn(double share, bool isAsked);
    [[nodiscard]] bool passes(std::int64_t rank, const SharedAvFrame& picture, bool isWanted);
    [[nodiscard]] bool give(Say say, std::int64_t rank, const AVFrame& picture);
    [[nodiscard]] bool isRoomFor(std::size_t bytes);
    [[nodiscard]] bool mayGoOn();
    void send(Say say, const Packing& body = {});
    [[nodiscard]] std::optional<Message> receive();
    void giveSign();

    Channel m_channel;
    bool m_isOver = false; ///< the program is gone, or talks no sense
    std::optional<OpenClip> m_clip;
    std::optional<Room> m_room;
    SharedAvFrame m_lastPassed;
    Channel::Clock::time_point m_lastSign{};
};

} // namespace latemile
