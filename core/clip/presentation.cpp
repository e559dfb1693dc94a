// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/presentation.hpp"

#include <algorithm>
#include <numeric>
#include <string_view>

namespace latemile {

namespace {

/// Containers in which each packet is one whole frame.
bool packetsAreFrames(const AVInputFormat& container)
{
    constexpr std::string_view known[] = {
        "mov,mp4,m4a,3gp,3g2,mj2", "matroska,webm", "avi", "flv", "nut", "ivf", "asf"};
    return std::find(std::begin(known), std::end(known), container.name) != std::end(known);
}

bool mayReorder(AVCodecID codec)
{
    const auto* descriptor = avcodec_descriptor_get(codec);
    return !descriptor || (descriptor->props & AV_CODEC_PROP_REORDER) != 0;
}

/// Shown before the key picture at `key`, though decoded after it.
bool leads(const PacketIndex& index, const std::vector<std::int64_t>& ranks, std::size_t packet,
           std::size_t key)
{
    if (ranks[packet] != Presentation::none && ranks[key] != Presentation::none) {
        return ranks[packet] < ranks[key];
    }
    const auto& shown = index.packets[packet];
    const auto& keyEntry = index.packets[key];
    return shown.pts != AV_NOPTS_VALUE && keyEntry.pts != AV_NOPTS_VALUE &&
           shown.pts < keyEntry.pts;
}

} // namespace

Presentation::Presentation(const PacketIndex& index, std::vector<std::int64_t> shown)
    : m_shown(std::move(shown)), m_ranks(index.packets.size(), none),
      m_keys(index.packets.size(), 0)
{
    for (std::size_t rank = 0; rank < m_shown.size(); ++rank) {
        m_ranks[at(m_shown[rank])] = static_cast<std::int64_t>(rank);
    }
    std::int64_t key = 0;
    std::int64_t before = 0;
    for (std::size_t packet = 0; packet < index.packets.size(); ++packet) {
        if (index.packets[packet].isKey) {
            before = key;
            key = static_cast<std::int64_t>(packet);
            m_keyPackets.push_back(key);
        }
        m_keys[packet] = leads(index, m_ranks, packet, at(key)) ? before : key;
    }
}

std::int64_t Presentation::keyBefore(std::int64_t key) const
{
    const auto place = std::lower_bound(m_keyPackets.begin(), m_keyPackets.end(), key);
    return place == m_keyPackets.begin() ? 0 : *std::prev(place);
}

int Presentation::reorderDepth() const
{
    std::int64_t depth = 0;
    std::int64_t decoded = 0;
    for (const auto rank : m_ranks) {
        if (rank != none) {
            depth = std::max(depth, decoded - rank);
            ++decoded;
        }
    }
    return static_cast<int>(std::min<std::int64_t>(depth, 16));
}

std::optional<std::vector<std::int64_t>> orderFromPackets(const OpenedFile& file,
                                                          const PacketIndex& index)
{
    if (!packetsAreFrames(*file.demuxer()->iformat)) {
        return std::nullopt;
    }
    std::vector<std::int64_t> shown;
    for (std::size_t packet = 0; packet < index.packets.size(); ++packet) {
        if (index.packets[packet].isShown) {
            shown.push_back(static_cast<std::int64_t>(packet));
        }
    }
    if (!mayReorder(file.stream()->codecpar->codec_id)) {
        return shown;
    }
    const auto stamp = [&index](std::int64_t ordinal) {
        return index.packets[static_cast<std::size_t>(ordinal)].pts;
    };
    const auto hasNone = [&](std::int64_t packet) { return stamp(packet) == AV_NOPTS_VALUE; };
    if (std::any_of(shown.begin(), shown.end(), hasNone)) {
        return std::nullopt;
    }
    const auto earlier = [&](std::int64_t a, std::int64_t b) { return stamp(a) < stamp(b); };
    if (std::is_sorted(shown.begin(), shown.end(), earlier)) {
        return shown;
    }
    std::stable_sort(shown.begin(), shown.end(), earlier);
    const auto same = [&](std::int64_t a, std::int64_t b) { return stamp(a) == stamp(b); };
    if (std::adjacent_find(shown.begin(), shown.end(), same) != shown.end()) {
        return std::nullopt;
    }
    return shown;
}

} // namespace latemile
