// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/clip/plain_decode.hpp"

#include "core/clip/libav_owners.hpp"
#include "core/clip/orientation.hpp"
#include "core/clip/upright.hpp"

#include "tests/catch.hpp"

#include <optional>

namespace latemile::test {

std::uint64_t hashOf(const Picture& picture)
{
    std::uint64_t hash = 1469598103934665603ULL; // FNV-1a
    const auto take = [&hash](std::uint64_t value) { hash = (hash ^ value) * 1099511628211ULL; };
    take(static_cast<std::uint64_t>(picture.width()));
    take(static_cast<std::uint64_t>(picture.height()));
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width() * 4; ++x) {
            take(picture.row(y)[x]);
        }
    }
    return hash;
}

std::vector<PlainFrame> plainDecode(const std::filesystem::path& file, int stream)
{
    AVFormatContext* raw = nullptr;
    REQUIRE(avformat_open_input(&raw, file.c_str(), nullptr, nullptr) == 0);
    const AvDemuxer demuxer(raw);
    REQUIRE(avformat_find_stream_info(raw, nullptr) >= 0);
    if (stream < 0) {
        stream = av_find_best_stream(raw, AVMEDIA_TYPE_VIDEO, -1, -1, nullptr, 0);
    }
    REQUIRE(stream >= 0);
    auto* const video = raw->streams[stream];
    const auto* codec = avcodec_find_decoder(video->codecpar->codec_id);
    REQUIRE(codec != nullptr);
    const AvCodecContext context(avcodec_alloc_context3(codec));
    REQUIRE(avcodec_parameters_to_context(context.get(), video->codecpar) == 0);
    context->thread_count = 1;
    REQUIRE(avcodec_open2(context.get(), codec, nullptr) == 0);

    std::vector<PlainFrame> frames;
    std::optional<UprightMaker> upright;
    const auto takeFrames = [&] {
        const AvFrame frame(av_frame_alloc());
        while (avcodec_receive_frame(context.get(), frame.get()) == 0) {
            if (!upright) {
                const auto aspect = av_guess_sample_aspect_ratio(raw, video, frame.get());
                const auto matrix = displayMatrixOf(*video);
                upright.emplace(UprightShape{frame->width, frame->height,
                                             aspect.num > 0 ? av_q2d(aspect) : 1.0,
                                             matrix ? orientationOf(*matrix) : Orientation{}});
            }
            const auto stamp = frame->best_effort_timestamp;
            const double seconds = stamp == AV_NOPTS_VALUE
                                       ? -1
                                       : static_cast<double>(stamp) * av_q2d(video->time_base);
            frames.push_back({hashOf(upright->make(*frame).value()), seconds});
        }
    };
    const AvPacket packet(av_packet_alloc());
    while (av_read_frame(raw, packet.get()) >= 0) {
        if (packet->stream_index == stream) {
            avcodec_send_packet(context.get(), packet.get());
            takeFrames();
        }
        av_packet_unref(packet.get());
    }
    avcodec_send_packet(context.get(), nullptr);
    takeFrames();
    return frames;
}

} // namespace latemile::test
