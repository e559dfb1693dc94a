// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/decoder_words.hpp"
#include "core/clip/packet_reader.hpp"

#include <cstdint>
#include <memory>
#include <optional>

namespace latemile {

/// A decoded frame and the packet it came from.
struct DecodedFrame {
    std::int64_t ordinal{}; ///< of its packet
    AvFrame frame;          ///< none at the end of the file
    bool isDamaged{};       ///< the decoder itself said that it had to patch this picture
};

/// Decodes from any packet on. The decoder is handed each packet's ordinal in place of its time
/// stamp and gives it back with the frame, so that a frame is known for what it is wherever
/// decoding began.
class FrameDecoder {
public:
    /// `reorderDepth`: frames to hold back so that they come out in order; 0 when not known.
    static Outcome<FrameDecoder> open(PacketReader packets, int reorderDepth);

    [[nodiscard]] const OpenedFile& file() const { return m_packets.file(); }
    [[nodiscard]] const PacketIndex& index() const { return m_packets.index(); }
    /// Decodes on across what is not quite in order, as players do. Without it every fault that the
    /// decoder sees is damage, since a patched picture may differ each time it is decoded.
    Outcome<void> tolerateFaults();
    /// Forgets all and begins at this packet.
    Outcome<void> startAt(std::int64_t ordinal);
    /// The next frame in the order the decoder shows them; one without a frame at the end.
    Outcome<DecodedFrame> next();
    /// The packet that is sent next.
    [[nodiscard]] std::int64_t nextOrdinal() const { return m_packets.nextOrdinal(); }

    /// Packets among which the decoder met damage since startAt or the last call; nothing if none.
    struct Span {
        std::int64_t first{};
        std::int64_t last{};
    };
    [[nodiscard]] std::optional<Span> takeDamage();

private:
    explicit FrameDecoder(PacketReader packets);
    Outcome<void> openContext(int reorderDepth, int faultsSeen);
    Outcome<void> sendNext();
    void noteDamage();

    PacketReader m_packets;
    std::unique_ptr<MadeUp> m_madeUp; // set on the decoder's threads
    AvCodecContext m_context;         // after m_madeUp, which its threads set
    AvPacket m_packet;
    bool m_isDraining = false;
    std::optional<Span> m_damage;
};

} // namespace latemile
