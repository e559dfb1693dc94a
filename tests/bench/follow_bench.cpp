// SPDX-License-Identifier: GPL-3.0-or-later
// bench_follow: following nine landmarks at 1080p, 240 frames/s, beside plain decoding of the same
// clip by libav with its own threads, in one run.
#include "core/follow/follow.hpp"
#include "core/marks/marks_file.hpp"
#include "sample_clips/maker/render_clip.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <iterator>

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace {

using namespace latemile;

double now()
{
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

/// Of all threads of the process: what a machine that others use too can tell.
double processorSeconds()
{
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

/// Frames a second of a demuxer and a decoder and nothing else.
double bareDecoding(const std::filesystem::path& file)
{
    AVFormatContext* demuxer = nullptr;
    if (avformat_open_input(&demuxer, file.c_str(), nullptr, nullptr) < 0 ||
        avformat_find_stream_info(demuxer, nullptr) < 0) {
        return 0.0;
    }
    const AVCodec* codec = nullptr;
    const int stream = av_find_best_stream(demuxer, AVMEDIA_TYPE_VIDEO, -1, -1, &codec, 0);
    AVCodecContext* decoder = avcodec_alloc_context3(codec);
    avcodec_parameters_to_context(decoder, demuxer->streams[stream]->codecpar);
    decoder->thread_count = 0;
    avcodec_open2(decoder, codec, nullptr);
    AVPacket* packet = av_packet_alloc();
    AVFrame* frame = av_frame_alloc();
    int frames = 0;
    const double start = now();
    const auto drain = [&] {
        while (avcodec_receive_frame(decoder, frame) == 0) {
            ++frames;
        }
    };
    while (av_read_frame(demuxer, packet) == 0) {
        if (packet->stream_index == stream) {
            avcodec_send_packet(decoder, packet);
            drain();
        }
        av_packet_unref(packet);
    }
    avcodec_send_packet(decoder, nullptr);
    drain();
    const double rate = frames / (now() - start);
    av_frame_free(&frame);
    av_packet_free(&packet);
    avcodec_free_context(&decoder);
    avformat_close_input(&demuxer);
    return rate;
}

/// One near step, as the truth has it.
Marking oneStep(const maker::Truth& truth)
{
    Marking marking;
    for (const auto& contact : truth.contacts) {
        if (contact.foot != maker::Foot::Left) {
            continue;
        }
        for (const auto frame :
             {contact.firstOn, (contact.firstOn + contact.firstClear) / 2, contact.firstClear}) {
            for (const auto landmark : sideViewLandmarks) {
                const auto place = static_cast<std::size_t>(landmark);
                marking.marks[{{static_cast<std::int64_t>(frame)}, BodySide::Near, landmark}] =
                    Mark{truth.frames[frame].left[place], Origin::Placed, 1.0};
            }
        }
        break;
    }
    return marking;
}

/// One corrected mark in the middle of the clip, followed anew.
void timeCorrection(const FollowResult& result, Marking marking)
{
    auto at = result.marks.begin();
    std::advance(at, static_cast<std::ptrdiff_t>(result.marks.size() / 2));
    marking.marks[at->first] =
        Mark{{at->second.at.u + 5.0, at->second.at.v}, Origin::Placed, std::nullopt};
    const double start = now();
    const auto anew = result.flow->followedAnew(marking, {at->first});
    std::printf("one mark corrected: %zu frames followed anew in %.1f ms\n", anew.size(),
                1000.0 * (now() - start));
}

} // namespace

int main()
{
    maker::ClipRecipe recipe;
    recipe.camera.width = 1920;
    recipe.camera.height = 1080;
    recipe.video.captureRate = 240.0;
    recipe.video.duration = 2.0;
    const auto file = std::filesystem::path(LATEMILE_BINARY_DIR) / "bench_follow.mp4";
    const auto truth = maker::renderClip(recipe, file);
    if (!truth) {
        std::fprintf(stderr, "%s\n", truth.error().sentence.c_str());
        return 1;
    }
    const auto marking = oneStep(*truth);
    for (int round = 0; round < 3; ++round) {
        const double idle = processorSeconds();
        const double bare = bareDecoding(file);
        const double decoded = processorSeconds();
        auto clip = ClipReader::open(file);
        const double start = now();
        const auto follower = Follower::open(*clip, marking, {});
        const double read = now();
        const auto result = follower->follow(marking);
        const double end = now();
        const double followed = processorSeconds();
        const auto frames = static_cast<double>(truth->frames.size());
        std::printf("bare decoding %.0f frames/s; following %.0f frames/s (%.2f of it); reading "
                    "%.2f s, following %.2f s for %.0f frames, %zu marks\n",
                    bare, frames / (end - start), frames / (end - start) / bare, read - start,
                    end - read, frames, result->marks.size());
        std::printf("processor time of bare decoding %.2f s, of following %.2f s (%.2f of it)\n",
                    decoded - idle, followed - decoded, (decoded - idle) / (followed - decoded));
        timeCorrection(*result, marking);
    }
    std::filesystem::remove(file);
    return 0;
}
