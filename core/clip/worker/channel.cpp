// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/channel.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <poll.h>
#include <sys/socket.h>

namespace latemile {

namespace {

constexpr std::size_t packetBytes = 64 * 1024;
constexpr std::size_t mostBytes = std::size_t{256} << 20;
/// Above the numbers that a new process begins with.
constexpr int leastNumber = 10;

/// Stands in front of each message; what does not fit behind it follows in packets of its own.
struct Head {
    Say say{};
    std::uint32_t bodyBytes{};
};

struct OneDescriptor {
    alignas(cmsghdr) std::array<char, CMSG_SPACE(sizeof(int))> bytes{};
};

bool sendPacket(int socket, std::span<iovec> parts, int descriptor)
{
    msghdr message{};
    message.msg_iov = parts.data();
    message.msg_iovlen = parts.size();
    OneDescriptor control;
    if (descriptor >= 0) {
        message.msg_control = control.bytes.data();
        message.msg_controllen = control.bytes.size();
        auto* header = CMSG_FIRSTHDR(&message);
        header->cmsg_level = SOL_SOCKET;
        header->cmsg_type = SCM_RIGHTS;
        header->cmsg_len = CMSG_LEN(sizeof descriptor);
        std::memcpy(CMSG_DATA(header), &descriptor, sizeof descriptor);
    }
    ssize_t sent = 0;
    do {
        sent = ::sendmsg(socket, &message, MSG_NOSIGNAL);
    } while (sent < 0 && errno == EINTR);
    return sent >= 0;
}

iovec part(const void* from, std::size_t size)
{
    return {const_cast<void*>(from), size}; // sendmsg only reads
}

Descriptor descriptorIn(msghdr& message)
{
    const auto* header = CMSG_FIRSTHDR(&message);
    if (!header || header->cmsg_type != SCM_RIGHTS || header->cmsg_len != CMSG_LEN(sizeof(int))) {
        return {};
    }
    int number = -1;
    std::memcpy(&number, CMSG_DATA(header), sizeof number);
    return Descriptor(number);
}

} // namespace

std::optional<std::pair<Channel, Descriptor>> Channel::makePair()
{
    std::array<int, 2> ends{};
    if (::socketpair(AF_UNIX, SOCK_SEQPACKET | SOCK_CLOEXEC, 0, ends.data()) != 0) {
        return std::nullopt;
    }
    Descriptor ours(ends[0]);
    const Descriptor low(ends[1]);
    Descriptor theirs(::fcntl(low.number(), F_DUPFD_CLOEXEC, leastNumber));
    if (!theirs.isOpen() || ::fcntl(ours.number(), F_SETFL, O_NONBLOCK) != 0) {
        return std::nullopt;
    }
    return std::pair(Channel(std::move(ours), End::Program), std::move(theirs));
}

bool Channel::send(Say say, const Packing& body, int descriptor) const
{
    const auto bytes = body.bytes();
    if (bytes.size() > mostBytes) {
        return false;
    }
    const Head head{say, static_cast<std::uint32_t>(bytes.size())};
    auto rest = bytes.subspan(std::min(bytes.size(), packetBytes - sizeof head));
    std::array<iovec, 2> parts{part(&head, sizeof head),
                               part(bytes.data(), bytes.size() - rest.size())};
    if (!sendPacket(m_socket.number(), parts, descriptor)) {
        return false;
    }
    while (!rest.empty()) {
        const auto size = std::min(rest.size(), packetBytes);
        std::array<iovec, 1> next{part(rest.data(), size)};
        if (!sendPacket(m_socket.number(), next, -1)) {
            return false;
        }
        rest = rest.subspan(size);
    }
    return true;
}

std::optional<Ending> Channel::await(const Patience& patience) const
{
    while (true) {
        int milliseconds = -1;
        if (patience.until) {
            const auto left =
                std::chrono::ceil<std::chrono::milliseconds>(*patience.until - Clock::now());
            if (left.count() <= 0) {
                return Ending::TooLate;
            }
            milliseconds = static_cast<int>(std::min<std::int64_t>(left.count(), 60'000));
        }
        std::array<pollfd, 2> watched{pollfd{m_socket.number(), POLLIN, 0},
                                      pollfd{patience.stop, POLLIN, 0}};
        const int ready = ::poll(watched.data(), watched.size(), milliseconds);
        if (ready < 0 && errno != EINTR) {
            return Ending::Gone;
        }
        if (ready > 0 && watched[1].revents != 0) {
            return Ending::Stopped;
        }
        if (ready > 0) {
            return std::nullopt;
        }
    }
}

tl::expected<std::size_t, Ending> Channel::receivePacket(std::span<std::byte> into,
                                                         Descriptor& file) const
{
    iovec whole{into.data(), into.size()};
    OneDescriptor control;
    msghdr message{};
    message.msg_iov = &whole;
    message.msg_iovlen = 1;
    if (m_end == End::Worker) {
        message.msg_control = control.bytes.data();
        message.msg_controllen = control.bytes.size();
    }
    ssize_t size = 0;
    do {
        size = ::recvmsg(m_socket.number(), &message, MSG_CMSG_CLOEXEC);
    } while (size < 0 && errno == EINTR);
    if (size <= 0) {
        return tl::unexpected(Ending::Gone);
    }
    if ((message.msg_flags & (MSG_TRUNC | MSG_CTRUNC)) != 0) {
        return tl::unexpected(Ending::Nonsense);
    }
    if (m_end == End::Worker) {
        file = descriptorIn(message);
    }
    return static_cast<std::size_t>(size);
}

tl::expected<Message, Ending> Channel::receive(const Patience& patience) const
{
    std::vector<std::byte> packet(packetBytes);
    Message message;
    Descriptor none;
    std::optional<Head> head;
    while (!head || message.body.size() < head->bodyBytes) {
        // The worker has nothing else to do than to wait, and may make few calls.
        if (m_end == End::Program) {
            if (const auto ending = await(patience)) {
                return tl::unexpected(*ending);
            }
        }
        const auto size = receivePacket(packet, head ? none : message.file);
        if (!size) {
            return tl::unexpected(size.error());
        }
        auto rest = std::span(packet).first(*size);
        if (!head) {
            if (rest.size() < sizeof(Head)) {
                return tl::unexpected(Ending::Nonsense);
            }
            std::memcpy(&head.emplace(), rest.data(), sizeof(Head));
            rest = rest.subspan(sizeof(Head));
        }
        if (head->bodyBytes > mostBytes || message.body.size() + rest.size() > head->bodyBytes) {
            return tl::unexpected(Ending::Nonsense);
        }
        message.body.insert(message.body.end(), rest.begin(), rest.end());
    }
    message.say = head->say;
    return message;
}

} // namespace latemile
