// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/descriptor.hpp"
#include "core/clip/worker/packing.hpp"

#include <tl/expected.hpp>

#include <chrono>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace latemile {

/// What a message between the program and its worker is.
enum class Say : std::uint32_t {
    // The program says:
    Open,    ///< this file (its descriptor comes with it), with these options
    Ask,     ///< for the picture of this rank
    Room,    ///< here is memory for pictures (its descriptor comes with it)
    GoOn,    ///< with what was told, go on
    Abandon, ///< with what was told, do not go on
    // The worker says:
    Alive,    ///< still at it
    Progress, ///< this share of the opening is done; may I go on?
    Opened,   ///< the clip is open: its index, facts and shape
    NeedRoom, ///< memory for pictures of this many bytes, please
    Passed,   ///< a picture on the way lies in the room; may I go on?
    Pictured, ///< the picture asked for lies in the room, or was the last one passed
    Failed    ///< it could not be done, for this reason
};

struct Message {
    Say say{};
    std::vector<std::byte> body;
    Descriptor file; ///< what came with it, if anything
};

/// Why no message came.
enum class Ending {
    Gone,     ///< the other end is closed: its process died
    TooLate,  ///< the time was up
    Nonsense, ///< what came is no message
    Stopped   ///< the caller's own wish
};

/// Until when to wait, and a descriptor that ends the waiting when it can be read.
struct Patience {
    std::optional<std::chrono::steady_clock::time_point> until{};
    int stop = -1;
};

/// One end of the talk between the program and its worker: whole messages over a socket pair.
class Channel {
public:
    /// The program's end trusts nothing: it never waits for ever, takes no descriptor and no
    /// message longer than an index of 19 hours at 240 frames/s.
    enum class End { Program, Worker };
    using Clock = std::chrono::steady_clock;

    /// Nothing where the system has no more descriptors.
    [[nodiscard]] static std::optional<std::pair<Channel, Descriptor>> makePair();
    Channel(Descriptor socket, End end) : m_socket(std::move(socket)), m_end(end) {}

    /// False when the other end is gone, or does not read what it is sent.
    [[nodiscard]] bool send(Say say, const Packing& body = {}, int descriptor = -1) const;

    [[nodiscard]] tl::expected<Message, Ending> receive(const Patience& patience = {}) const;

private:
    [[nodiscard]] std::optional<Ending> await(const Patience& patience) const;
    [[nodiscard]] tl::expected<std::size_t, Ending> receivePacket(std::span<std::byte> into,
                                                                  Descriptor& file) const;

    Descriptor m_socket;
    End m_end;
};

} // namespace latemile
