// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/packet_index.hpp"

#include "core/clip/hidden_packet.hpp"
#include "core/clip/key_packet.hpp"

namespace latemile {

namespace {

constexpr std::int64_t packetsBetweenQuestions = 64;

PacketEntry entryOf(const AVPacket& packet, const AVCodecParameters& coded)
{
    return {.pts = packet.pts,
            .dts = packet.dts,
            .duration = packet.duration,
            .position = packet.pos,
            .size = packet.size,
            .isKey = (packet.flags & AV_PKT_FLAG_KEY) != 0 && beginsWithWholePicture(coded, packet),
            .isShown = (packet.flags & AV_PKT_FLAG_DISCARD) == 0 && packet.size > 0 &&
                       !isHiddenPacket(coded.codec_id, packet),
            .isWhole = (packet.flags & AV_PKT_FLAG_CORRUPT) == 0};
}

bool everyPictureStandsAlone(AVCodecID codec)
{
    const auto* descriptor = avcodec_descriptor_get(codec);
    return descriptor && (descriptor->props & AV_CODEC_PROP_INTRA_ONLY) != 0;
}

} // namespace

PacketIndex readPacketIndex(const OpenedFile& file, const std::function<bool(double)>& goOn)
{
    const auto& coded = *file.stream()->codecpar;
    const auto bytes = avio_size(file.demuxer()->pb);
    PacketIndex index;
    std::int64_t read = 0;
    AvPacket packet(av_packet_alloc());
    int code = 0;
    while ((code = av_read_frame(file.demuxer(), packet.get())) >= 0) {
        if (packet->stream_index == file.streamIndex()) {
            index.packets.push_back(entryOf(*packet, coded));
        }
        const auto position = packet->pos;
        av_packet_unref(packet.get());
        const bool ask = goOn && ++read % packetsBetweenQuestions == 0 && bytes > 0;
        if (ask && !goOn(static_cast<double>(position) / static_cast<double>(bytes))) {
            index.stopped = true;
            return index;
        }
    }
    index.endedEarly = code != AVERROR_EOF;
    // A file cut off within its last packet still hands out what there is of it.
    if (!index.packets.empty() && !index.packets.back().isWhole) {
        index.packets.back().isShown = false;
        index.endedEarly = true;
    }
    if (everyPictureStandsAlone(coded.codec_id)) {
        for (auto& entry : index.packets) {
            entry.isKey = true;
        }
    }
    return index;
}

} // namespace latemile
