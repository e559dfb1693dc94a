// SPDX-License-Identifier: GPL-3.0-or-later
// Times the reading of clips against plain libav loops of the same decoder, threads and
// conversion, in one run. With --in-workers the clips are decoded in workers.
#include "core/clip/clip_reader.hpp"
#include "core/clip/frame_source.hpp"
#include "core/clip/libav_owners.hpp"
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/worker_main.hpp"
#include "tests/bench/bench_clip.hpp"
#include "tests/bench/bench_memory.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <random>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

using namespace latemile;

namespace {

double millisecondsOf(const std::function<void()>& work)
{
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
        .count();
}

/// What anyone would write with libav: the yardstick.
class Bare {
public:
    explicit Bare(const std::filesystem::path& file)
        : m_packet(av_packet_alloc()), m_frame(av_frame_alloc())
    {
        AVFormatContext* raw = nullptr;
        if (avformat_open_input(&raw, file.c_str(), nullptr, nullptr) < 0 ||
            avformat_find_stream_info(raw, nullptr) < 0) {
            stop("The clip cannot be opened.");
        }
        m_demuxer.reset(raw);
        const auto& coded = *raw->streams[0]->codecpar;
        const auto* codec = avcodec_find_decoder(coded.codec_id);
        m_decoder.reset(avcodec_alloc_context3(codec));
        avcodec_parameters_to_context(m_decoder.get(), &coded);
        m_decoder->thread_count =
            static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, 8U));
        if (avcodec_open2(m_decoder.get(), codec, nullptr) < 0) {
            stop("The clip cannot be decoded.");
        }
        m_scaler.reset(sws_getContext(coded.width, coded.height, AV_PIX_FMT_YUV420P, coded.width,
                                      coded.height, AV_PIX_FMT_BGRA, SWS_BICUBIC, nullptr, nullptr,
                                      nullptr));
        m_stride = coded.width * 4;
        m_pixels.resize(static_cast<std::size_t>(m_stride) *
                        static_cast<std::size_t>(coded.height));
    }

    std::int64_t countPackets()
    {
        std::int64_t count = 0;
        while (av_read_frame(m_demuxer.get(), m_packet.get()) >= 0) {
            ++count;
            av_packet_unref(m_packet.get());
        }
        return count;
    }
    void seek(std::int64_t stamp)
    {
        av_seek_frame(m_demuxer.get(), 0, stamp, AVSEEK_FLAG_BACKWARD);
        avcodec_flush_buffers(m_decoder.get());
    }
    /// Nothing at the end of the file.
    const AVFrame* decode()
    {
        while (true) {
            const int code = avcodec_receive_frame(m_decoder.get(), m_frame.get());
            if (code == 0) {
                return m_frame.get();
            }
            if (code != AVERROR(EAGAIN)) {
                return nullptr;
            }
            if (av_read_frame(m_demuxer.get(), m_packet.get()) < 0) {
                avcodec_send_packet(m_decoder.get(), nullptr);
            } else {
                avcodec_send_packet(m_decoder.get(), m_packet.get());
                av_packet_unref(m_packet.get());
            }
        }
    }
    void convert(const AVFrame& frame)
    {
        std::uint8_t* const planes[4] = {m_pixels.data()};
        const int strides[4] = {m_stride};
        sws_scale(m_scaler.get(), frame.data, frame.linesize, 0, frame.height, planes, strides);
    }

private:
    AvDemuxer m_demuxer;
    AvCodecContext m_decoder;
    AvScaler m_scaler;
    AvPacket m_packet;
    AvFrame m_frame;
    int m_stride = 0;
    std::vector<std::uint8_t> m_pixels;
};

void report(const char* what, double ours, double bare, const char* goal)
{
    std::printf("%-44s %9.2f ms %9.2f ms   ratio %5.2f   goal %s\n", what, ours, bare, ours / bare,
                goal);
}

void benchOpening(const std::filesystem::path& file)
{
    std::vector<double> ours;
    std::vector<double> bare;
    for (int round = 0; round < 9; ++round) {
        bare.push_back(millisecondsOf([&] {
            Bare loop(file);
            if (loop.countPackets() != frames) {
                stop("The clip has another number of frames.");
            }
            loop.seek(0);
            loop.decode();
        }));
        ours.push_back(millisecondsOf([&] { ClipReader::open(file)->frame({0}).value(); }));
    }
    report("index and first frame (median of 9)", quantile(ours, 0.5), quantile(bare, 0.5),
           "<= 1.5");
}

void benchSequential(const std::filesystem::path& file)
{
    std::vector<double> ours;
    std::vector<double> bare;
    for (int round = 0; round < 3; ++round) {
        Bare loop(file);
        bare.push_back(millisecondsOf([&] {
            while (const auto* frame = loop.decode()) {
                loop.convert(*frame);
            }
        }));
        auto reader = ClipReader::open(file).value();
        ours.push_back(millisecondsOf([&] {
            for (std::int64_t n = 0; n < frames; ++n) {
                reader.frame({n}).value();
            }
        }));
    }
    const double best = quantile(ours, 0);
    const double bestBare = quantile(bare, 0);
    std::printf("%-44s %9.1f /s %9.1f /s   ratio %5.2f   goal >= 0.9\n",
                "sequential with conversion (best of 3)", frames / best * 1000,
                frames / bestBare * 1000, bestBare / best);
}

void benchSteps(const std::filesystem::path& file)
{
    const auto source = FrameSource::open(file).value();
    source->frame({2 * group + 30}).value();
    std::this_thread::sleep_for(std::chrono::seconds(1)); // the first group is in
    std::vector<double> forward;
    std::vector<double> back;
    std::int64_t at = 2 * group + 30;
    const auto step = [&](int by, std::vector<double>& times) {
        at += by;
        times.push_back(millisecondsOf([&] { source->frame({at}).value(); }));
        std::this_thread::sleep_for(std::chrono::milliseconds(16)); // sixty steps a second
    };
    for (int i = 0; i < 150; ++i) {
        step(1, forward);
    }
    for (int i = 0; i < 250; ++i) {
        step(-1, back);
    }
    for (int i = 0; i < 100; ++i) {
        step(i % 2 == 0 ? 1 : -1, i % 2 == 0 ? forward : back);
    }
    const auto tell = [](const char* what, const std::vector<double>& times) {
        std::printf("%-44s median %5.2f ms   p99 %5.2f ms   most %5.2f ms   goal 5, 20\n", what,
                    quantile(times, 0.5), quantile(times, 0.99), quantile(times, 1));
    };
    tell("step forward", forward);
    tell("step back", back);
}

void benchSeeks(const std::filesystem::path& file)
{
    auto reader = ClipReader::open(file).value();
    Bare loop(file);
    const AVRational rate{240, 1};
    std::mt19937 random(9);
    std::uniform_int_distribution<std::int64_t> anyFrame(0, frames - 1);
    std::vector<double> ours;
    std::vector<double> bare;
    for (int i = 0; i < 60; ++i) {
        const auto n = anyFrame(random);
        // The time base of the clip is 1/15360 s.
        const auto stamp = av_rescale_q(n, av_inv_q(rate), AVRational{1, 15360});
        const auto key = av_rescale_q(n / group * group, av_inv_q(rate), AVRational{1, 15360});
        bare.push_back(millisecondsOf([&] {
            loop.seek(key);
            const auto* frame = loop.decode();
            while (frame && frame->pts < stamp) {
                frame = loop.decode();
            }
            loop.convert(*frame);
        }));
        ours.push_back(millisecondsOf([&] { reader.frame({n}).value(); }));
    }
    report("exact random seek with conversion (median)", quantile(ours, 0.5), quantile(bare, 0.5),
           "<= 1.1");
}

/// What a process has for itself or shares with its worker, but not its code.
const std::vector<std::string> withoutCode{"RssAnon:", "RssShmem:"};

void benchMemory(const std::filesystem::path& file)
{
    const double before = megabytesOf("self", withoutCode);
    auto reader = ClipReader::open(file).value();
    for (std::int64_t n = 0; n < 2 * group; ++n) {
        reader.frame({n}).value();
    }
    std::printf("%-44s %9.1f MB here %9.1f MB in its worker\n", "one reader's memory",
                megabytesOf("self", withoutCode) - before, megabytesOfWorkers(withoutCode));
}

double millisecondsOfReading(ClipReader reader)
{
    return millisecondsOf([&] {
        for (std::int64_t n = 0; n < frames; ++n) {
            reader.frame({n}).value();
        }
    });
}

/// Turn by turn in one run, so that what else the machine does falls on both.
void benchBeside(const std::filesystem::path& file)
{
    std::vector<double> openedHere;
    std::vector<double> openedThere;
    std::vector<double> readHere;
    std::vector<double> readThere;
    for (int round = 0; round < 5; ++round) {
        decodeInProcess();
        openedHere.push_back(millisecondsOf([&] { ClipReader::open(file)->frame({0}).value(); }));
        readHere.push_back(millisecondsOfReading(ClipReader::open(file).value()));
        decodeInWorkers();
        openedThere.push_back(millisecondsOf([&] { ClipReader::open(file)->frame({0}).value(); }));
        readThere.push_back(millisecondsOfReading(ClipReader::open(file).value()));
    }
    const auto each = static_cast<double>(frames);
    std::printf("%-44s %9.2f ms %9.2f ms   goal 1.6 ms more\n",
                "a frame: in a worker, in this process", quantile(readThere, 0) / each,
                quantile(readHere, 0) / each);
    std::printf("%-44s %9.2f ms %9.2f ms\n", "opening: in a worker, in this process",
                quantile(openedThere, 0), quantile(openedHere, 0));
}

} // namespace

int main(int argc, char** argv)
{
    serveIfWorker(argc, argv);
    if (argc == 2 && std::string_view(argv[1]) == "--in-workers") {
        benchBeside(benchClip());
        decodeInWorkers();
    }
    const auto file = benchClip();
    benchMemory(file);
    std::printf("%-44s %12s %12s\n", file.filename().c_str(), "Latemile", "bare libav");
    benchOpening(file);
    benchSequential(file);
    benchSteps(file);
    benchSeeks(file);
    return 0;
}
