// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/packet_index.hpp"

#include <cstdint>
#include <unordered_map>
#include <vector>

namespace latemile {

/// Reads the packets of the video stream from any ordinal on. A demuxer's own seeking lands near a
/// time, in some containers beside the packet asked for; so each packet read is recognised by its
/// place in the file.
class PacketReader {
public:
    PacketReader(OpenedFile file, PacketIndex index);

    [[nodiscard]] const OpenedFile& file() const { return m_file; }
    [[nodiscard]] const PacketIndex& index() const { return m_index; }
    /// Makes `ordinal` the next packet read.
    Outcome<void> goTo(std::int64_t ordinal);
    /// The ordinal of the packet that next() reads.
    [[nodiscard]] std::int64_t nextOrdinal() const { return m_next; }
    /// Reads the next packet; false at the end. An error when the file changed under us.
    Outcome<bool> next(AVPacket& packet);

private:
    Outcome<bool> read(AVPacket& packet);
    Outcome<bool> seekNear(std::int64_t ordinal, std::int64_t target);
    Outcome<void> countFromStart(std::int64_t ordinal);
    [[nodiscard]] std::int64_t recognise(const AVPacket& packet) const;
    [[nodiscard]] bool isPacket(std::int64_t ordinal, const AVPacket& packet) const;

    OpenedFile m_file;
    PacketIndex m_index;
    std::unordered_multimap<std::int64_t, std::int64_t> m_byPosition; // made at the first seek
    std::int64_t m_next;
    AvPacket m_ahead; // the packet asked for, when a seek has read it already
    bool m_hasAhead = false;
};

} // namespace latemile
