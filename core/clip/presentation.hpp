// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/packet_index.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace latemile {

/// Which packet becomes which frame shown, and where decoding has to begin for it. "Ordinal" is a
/// packet's place in decoding order, "rank" a frame's place in the order of presentation.
class Presentation {
public:
    static constexpr std::int64_t none = -1;

    /// `shown`: the ordinals of the packets that become frames, in order of presentation.
    Presentation(const PacketIndex& index, std::vector<std::int64_t> shown);

    [[nodiscard]] std::int64_t frames() const { return static_cast<std::int64_t>(m_shown.size()); }
    [[nodiscard]] const std::vector<std::int64_t>& shown() const { return m_shown; }
    [[nodiscard]] std::int64_t ordinalOf(std::int64_t rank) const { return m_shown[at(rank)]; }
    /// `none` for a packet that is decoded but not shown.
    [[nodiscard]] std::int64_t rankOf(std::int64_t ordinal) const { return m_ranks[at(ordinal)]; }
    /// The ordinal of the key packet from which this packet decodes exactly. A picture shown before
    /// a key picture but decoded after it (open group of pictures) needs the key picture before.
    [[nodiscard]] std::int64_t keyOf(std::int64_t ordinal) const { return m_keys[at(ordinal)]; }
    /// The key packet before `key`; 0 when there is none.
    [[nodiscard]] std::int64_t keyBefore(std::int64_t key) const;
    /// Makes decoding of this packet begin at an earlier key packet from now on.
    void setKeyOf(std::int64_t ordinal, std::int64_t key) { m_keys[at(ordinal)] = key; }
    /// How many frames a decoder has to hold back so that they come out in order.
    [[nodiscard]] int reorderDepth() const;

private:
    static std::size_t at(std::int64_t place) { return static_cast<std::size_t>(place); }

    std::vector<std::int64_t> m_shown;      // by rank
    std::vector<std::int64_t> m_ranks;      // by ordinal
    std::vector<std::int64_t> m_keys;       // by ordinal
    std::vector<std::int64_t> m_keyPackets; // ordinals, rising
};

/// The order of presentation from the packets alone; nothing where they do not suffice to know it
/// (avi with B-frames; containers in which a packet need not be a whole frame), so that the file
/// has to be decoded once.
[[nodiscard]] std::optional<std::vector<std::int64_t>> orderFromPackets(const OpenedFile& file,
                                                                        const PacketIndex& index);

} // namespace latemile
