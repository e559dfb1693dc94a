// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/packet_reader.hpp"

#include <string_view>

namespace latemile {

namespace {

constexpr std::int64_t unknown = -1;

/// The time by which the demuxer finds a packet: mov and mp4 look up decoding times, all others
/// times of presentation.
std::int64_t seekTime(const OpenedFile& file, const PacketEntry& entry)
{
    const bool byDecoding = std::string_view(file.demuxer()->iformat->name).starts_with("mov");
    const auto first = byDecoding ? entry.dts : entry.pts;
    const auto second = byDecoding ? entry.pts : entry.dts;
    return first != AV_NOPTS_VALUE ? first : second;
}

} // namespace

PacketReader::PacketReader(OpenedFile file, PacketIndex index)
    : m_file(std::move(file)), m_index(std::move(index)),
      m_next(static_cast<std::int64_t>(m_index.packets.size())), m_ahead(av_packet_alloc())
{
}

bool PacketReader::isPacket(std::int64_t ordinal, const AVPacket& packet) const
{
    if (ordinal < 0 || ordinal >= static_cast<std::int64_t>(m_index.packets.size())) {
        return false;
    }
    const auto& entry = m_index.packets[static_cast<std::size_t>(ordinal)];
    return entry.position == packet.pos && entry.size == packet.size;
}

std::int64_t PacketReader::recognise(const AVPacket& packet) const
{
    if (packet.pos < 0) {
        return unknown;
    }
    std::int64_t found = unknown;
    const auto [first, last] = m_byPosition.equal_range(packet.pos);
    for (auto it = first; it != last; ++it) {
        const auto& entry = m_index.packets[static_cast<std::size_t>(it->second)];
        if (!isPacket(it->second, packet)) {
            continue;
        }
        // An edit list may show the same packet twice, at different times.
        if (entry.pts == packet.pts && entry.dts == packet.dts) {
            return it->second;
        }
        found = std::next(first) == last ? it->second : unknown;
    }
    return found;
}

Outcome<bool> PacketReader::read(AVPacket& packet)
{
    int code = 0;
    while ((code = av_read_frame(m_file.demuxer(), &packet)) >= 0) {
        if (packet.stream_index == m_file.streamIndex()) {
            return true;
        }
        av_packet_unref(&packet);
    }
    return false;
}

/// Seeks to the time of `near` and reads up to `target`; false where that led past it.
Outcome<bool> PacketReader::seekNear(std::int64_t ordinal, std::int64_t target)
{
    const auto time = seekTime(m_file, m_index.packets[static_cast<std::size_t>(ordinal)]);
    if (time == AV_NOPTS_VALUE ||
        av_seek_frame(m_file.demuxer(), m_file.streamIndex(), time, AVSEEK_FLAG_BACKWARD) < 0) {
        return false;
    }
    while (true) {
        ASSIGN_OR_RETURN(const bool isThere, read(*m_ahead));
        if (!isThere) {
            return false;
        }
        const auto found = recognise(*m_ahead);
        if (found == target) {
            m_hasAhead = true;
            return true;
        }
        av_packet_unref(m_ahead.get());
        if (found == unknown || found > target) {
            return false;
        }
    }
}

/// Sure in any container: reads the header again and counts.
Outcome<void> PacketReader::countFromStart(std::int64_t ordinal)
{
    ASSIGN_OR_RETURN(m_file, OpenedFile::open(m_file.file(), m_file.streamIndex()));
    for (std::int64_t skipped = 0; skipped < ordinal; ++skipped) {
        ASSIGN_OR_RETURN(const bool isThere, read(*m_ahead));
        if (!isThere) {
            return fail(Error::Kind::Damaged,
                        "The file " + m_file.name() + " changed while it was open; open it again.");
        }
        av_packet_unref(m_ahead.get());
    }
    return {};
}

Outcome<void> PacketReader::goTo(std::int64_t ordinal)
{
    if (m_next == ordinal) {
        return {};
    }
    if (m_byPosition.empty()) {
        m_byPosition.reserve(m_index.packets.size());
        for (std::size_t i = 0; i < m_index.packets.size(); ++i) {
            m_byPosition.emplace(m_index.packets[i].position, static_cast<std::int64_t>(i));
        }
    }
    av_packet_unref(m_ahead.get());
    m_hasAhead = false;
    ASSIGN_OR_RETURN(bool isThere, seekNear(ordinal, ordinal));
    if (!isThere && ordinal > 0) {
        ASSIGN_OR_RETURN(isThere, seekNear(0, ordinal));
    }
    if (!isThere) {
        RETURN_IF_ERROR(countFromStart(ordinal));
    }
    m_next = ordinal;
    return {};
}

Outcome<bool> PacketReader::next(AVPacket& packet)
{
    if (m_next >= static_cast<std::int64_t>(m_index.packets.size())) {
        return false;
    }
    if (m_hasAhead) {
        av_packet_move_ref(&packet, m_ahead.get());
        m_hasAhead = false;
    } else {
        ASSIGN_OR_RETURN(const bool isThere, read(packet));
        if (!isThere || !isPacket(m_next, packet)) {
            av_packet_unref(&packet);
            return fail(Error::Kind::Damaged,
                        "The file " + m_file.name() + " changed while it was open; open it again.");
        }
    }
    ++m_next;
    return true;
}

} // namespace latemile
