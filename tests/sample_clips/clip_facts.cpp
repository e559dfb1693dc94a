// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/sample_clips/clip_facts.hpp"

#include <memory>
#include <stdexcept>

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace latemile::test {

namespace {
struct Closed {
    void operator()(AVFormatContext* it) const { avformat_close_input(&it); }
    void operator()(AVCodecContext* it) const { avcodec_free_context(&it); }
    void operator()(AVFrame* it) const { av_frame_free(&it); }
    void operator()(AVPacket* it) const { av_packet_free(&it); }
};

void need(bool good, const char* what)
{
    if (!good) {
        throw std::runtime_error(what);
    }
}

void take(AVCodecContext& codec, AVFrame& frame, double tick, RawClip& clip)
{
    while (avcodec_receive_frame(&codec, &frame) == 0) {
        clip.times.push_back(static_cast<double>(frame.best_effort_timestamp) * tick);
        std::vector<std::uint8_t> luma;
        for (int y = 0; y < frame.height; ++y) {
            const auto* row = frame.data[0] + y * frame.linesize[0];
            luma.insert(luma.end(), row, row + frame.width);
        }
        clip.luma.push_back(std::move(luma));
    }
}
} // namespace

RawClip decodeAll(const std::filesystem::path& file)
{
    AVFormatContext* opened = nullptr;
    need(avformat_open_input(&opened, file.c_str(), nullptr, nullptr) == 0, "cannot open");
    const std::unique_ptr<AVFormatContext, Closed> format(opened);
    need(avformat_find_stream_info(format.get(), nullptr) >= 0, "no streams");
    const int index = av_find_best_stream(format.get(), AVMEDIA_TYPE_VIDEO, -1, -1, nullptr, 0);
    need(index >= 0, "no video");
    const AVStream& stream = *format->streams[index];
    const AVCodec* decoder = avcodec_find_decoder(stream.codecpar->codec_id);
    need(decoder != nullptr, "no decoder");
    const std::unique_ptr<AVCodecContext, Closed> codec(avcodec_alloc_context3(decoder));
    need(avcodec_parameters_to_context(codec.get(), stream.codecpar) >= 0, "no parameters");
    need(avcodec_open2(codec.get(), decoder, nullptr) == 0, "no decoder");

    RawClip clip;
    clip.codec = avcodec_get_name(stream.codecpar->codec_id);
    clip.width = codec->width;
    clip.height = codec->height;
    if (const auto* tag = av_dict_get(format->metadata, "com.android.capture.fps", nullptr, 0)) {
        clip.captureTag = tag->value;
    }
    const double tick = av_q2d(stream.time_base);
    const std::unique_ptr<AVFrame, Closed> frame(av_frame_alloc());
    const std::unique_ptr<AVPacket, Closed> packet(av_packet_alloc());
    while (av_read_frame(format.get(), packet.get()) == 0) {
        if (packet->stream_index == index) {
            need(avcodec_send_packet(codec.get(), packet.get()) == 0, "damaged packet");
            take(*codec, *frame, tick, clip);
        }
        av_packet_unref(packet.get());
    }
    avcodec_send_packet(codec.get(), nullptr);
    take(*codec, *frame, tick, clip);
    return clip;
}

} // namespace latemile::test
