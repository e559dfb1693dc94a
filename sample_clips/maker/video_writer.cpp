// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/video_writer.hpp"

#include <opencv2/core.hpp>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/opt.h>
}

namespace latemile::maker {

namespace {

struct FreeFormat {
    void operator()(AVFormatContext* context) const
    {
        avio_closep(&context->pb);
        avformat_free_context(context);
    }
};
struct FreeCodec {
    void operator()(AVCodecContext* context) const { avcodec_free_context(&context); }
};
struct FreeFrame {
    void operator()(AVFrame* frame) const { av_frame_free(&frame); }
};
struct FreePacket {
    void operator()(AVPacket* packet) const { av_packet_free(&packet); }
};
using AvFormat = std::unique_ptr<AVFormatContext, FreeFormat>;
using AvCodec = std::unique_ptr<AVCodecContext, FreeCodec>;
using AvFrame = std::unique_ptr<AVFrame, FreeFrame>;
using AvPacket = std::unique_ptr<AVPacket, FreePacket>;

std::string words(int code)
{
    std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
    av_strerror(code, text.data(), text.size());
    return text.data();
}

struct Choice {
    AVCodecID id;
    std::vector<const char*> encoders; ///< best first
    const char* name;                  ///< for a sentence
};

Choice choiceOf(Codec codec)
{
    switch (codec) {
    case Codec::H264:
        return {AV_CODEC_ID_H264, {"libx264"}, "H.264"};
    case Codec::Hevc:
        return {AV_CODEC_ID_HEVC, {"libx265"}, "HEVC"};
    case Codec::Mpeg4:
        return {AV_CODEC_ID_MPEG4, {"mpeg4"}, "MPEG-4"};
    case Codec::Mjpeg:
        return {AV_CODEC_ID_MJPEG, {"mjpeg"}, "MJPEG"};
    case Codec::Vp9:
        return {AV_CODEC_ID_VP9, {"libvpx-vp9"}, "VP9"};
    case Codec::Av1:
        return {AV_CODEC_ID_AV1, {"libsvtav1", "libaom-av1"}, "AV1"};
    }
    return {};
}

const AVCodec* encoderOf(const Choice& choice)
{
    for (const char* name : choice.encoders) {
        if (const auto* encoder = avcodec_find_encoder_by_name(name)) {
            return encoder;
        }
    }
    return avcodec_find_encoder(choice.id);
}

/// Speed before size: these clips are made, measured and thrown away.
void setQuality(AVCodecContext& context, const AVCodec& encoder, const VideoRecipe& recipe)
{
    const std::string_view name = encoder.name;
    const auto set = [&context](const char* key, const char* value) {
        // An encoder without the option keeps its own way; that is no error.
        av_opt_set(context.priv_data, key, value, 0);
    };
    if (recipe.kilobits) {
        context.bit_rate = std::int64_t{1000} * *recipe.kilobits;
    }
    const bool constant = !recipe.kilobits;
    if (name == "libx264") {
        set("preset", "veryfast");
        // Its macroblock tree sums in an order that hangs on where memory happens to lie: with it
        // the same pictures come out as other bytes now and then.
        set("x264-params", "mbtree=0");
        if (constant) {
            set("crf", "20");
        }
    } else if (name == "libx265") {
        set("preset", "ultrafast");
        set("x265-params", "log-level=none:pools=1:frame-threads=1");
        if (constant) {
            set("crf", "22");
        }
    } else if (name == "libvpx-vp9") {
        set("deadline", "realtime");
        set("cpu-used", "8");
        if (constant) {
            set("crf", "30");
        }
    } else if (name == "libsvtav1") {
        set("preset", "12");
        if (constant) {
            set("crf", "35");
        }
    } else if (name == "libaom-av1") {
        set("cpu-used", "8");
        if (constant) {
            set("crf", "35");
        }
    } else if (constant) {
        context.flags |= AV_CODEC_FLAG_QSCALE;
        context.global_quality = FF_QP2LAMBDA * 3;
    }
}

} // namespace

struct VideoWriter::Inside {
    std::filesystem::path file;
    AvFormat format;
    AvCodec codec;
    AvFrame frame{av_frame_alloc()};
    AvPacket packet{av_packet_alloc()};
    AVStream* stream{}; ///< owned by format
    bool fullRange{};
    bool finished{};

    ~Inside()
    {
        format.reset();
        if (!finished) {
            std::error_code ignored;
            std::filesystem::remove(file, ignored);
        }
    }
    [[nodiscard]] tl::unexpected<Error> failure(const char* what, int code) const
    {
        return fail(Error::Kind::Unsupported,
                    "The clip " + file.filename().string() + " could not be written: " + what + ".",
                    words(code));
    }
    Outcome<void> openEncoder(const VideoRecipe& recipe, int width, int height);
    Outcome<void> openContainer(const VideoRecipe& recipe);
    Outcome<void> drain();
};

Outcome<void> VideoWriter::Inside::openEncoder(const VideoRecipe& recipe, int width, int height)
{
    const Choice choice = choiceOf(recipe.codec);
    const AVCodec* encoder = encoderOf(choice);
    if (!encoder) {
        return fail(Error::Kind::Unsupported, std::string("This machine has no encoder for ") +
                                                  choice.name + ": choose another codec.");
    }
    codec.reset(avcodec_alloc_context3(encoder));
    auto& c = *codec;
    const double rate = recipe.containerRate.value_or(recipe.captureRate);
    c.width = width;
    c.height = height;
    c.framerate = av_d2q(rate, 100000);
    // 60000 ticks a second hold every usual rate exactly, 30000/1001 among them, and are few enough
    // for MPEG-4, which allows 65535.
    const bool evenOnly = std::strcmp(format->oformat->name, "avi") == 0;
    c.time_base = evenOnly ? av_inv_q(c.framerate) : AVRational{1, 60000};
    fullRange = recipe.codec == Codec::Mjpeg;
    c.pix_fmt = fullRange ? AV_PIX_FMT_YUVJ420P : AV_PIX_FMT_YUV420P;
    c.color_range = fullRange ? AVCOL_RANGE_JPEG : AVCOL_RANGE_MPEG;
    c.colorspace = AVCOL_SPC_SMPTE170M;
    c.color_primaries = AVCOL_PRI_BT709;
    c.color_trc = AVCOL_TRC_BT709;
    c.gop_size = recipe.keyInterval;
    if (evenOnly) {
        c.max_b_frames = 0; // avi keeps no time of presentation to put them in order by
    }
    // A fixed number of threads: with some encoders the bytes depend on it.
    c.thread_count = 2;
    c.log_level_offset = AV_LOG_INFO - AV_LOG_ERROR; // encoders tell of errors, not of themselves
    c.flags |= AV_CODEC_FLAG_BITEXACT;
    if ((format->oformat->flags & AVFMT_GLOBALHEADER) != 0) {
        c.flags |= AV_CODEC_FLAG_GLOBAL_HEADER;
    }
    setQuality(c, *encoder, recipe);
    if (const int code = avcodec_open2(codec.get(), encoder, nullptr); code < 0) {
        return failure("the encoder refused these settings", code);
    }
    return {};
}

Outcome<void> VideoWriter::Inside::openContainer(const VideoRecipe& recipe)
{
    stream = avformat_new_stream(format.get(), nullptr);
    if (!stream || avcodec_parameters_from_context(stream->codecpar, codec.get()) < 0) {
        return failure("the container has no room for a picture stream", AVERROR(ENOMEM));
    }
    if (recipe.codec == Codec::Hevc) {
        // Some players open HEVC in mp4 and mov only under this name.
        const bool mov = std::strcmp(format->oformat->name, "mp4") == 0 ||
                         std::strcmp(format->oformat->name, "mov") == 0;
        stream->codecpar->codec_tag = mov ? MKTAG('h', 'v', 'c', '1') : 0U;
    }
    stream->time_base = codec->time_base;
    stream->avg_frame_rate = codec->framerate;
    format->flags |= AVFMT_FLAG_BITEXACT;
    AVDictionary* options = nullptr;
    if (recipe.captureRateTag) {
        av_dict_set(&format->metadata, "com.android.capture.fps",
                    std::to_string(recipe.captureRate).c_str(), 0);
        av_dict_set(&options, "movflags", "use_metadata_tags", 0);
    }
    int code = avio_open(&format->pb, ("file:" + file.string()).c_str(), AVIO_FLAG_WRITE);
    if (code >= 0) {
        code = avformat_write_header(format.get(), &options);
    }
    av_dict_free(&options);
    return code < 0 ? Outcome<void>(failure("its container refused the codec, or the folder is not "
                                            "writable",
                                            code))
                    : Outcome<void>();
}

Outcome<VideoWriter> VideoWriter::open(const std::filesystem::path& file, const VideoRecipe& recipe,
                                       int width, int height)
{
    auto inside = std::make_unique<Inside>();
    inside->file = file;
    AVFormatContext* format = nullptr;
    avformat_alloc_output_context2(&format, nullptr, nullptr, file.string().c_str());
    if (!format) {
        inside->finished = true; // nothing of ours to remove
        return fail(Error::Kind::Unsupported, "No container is known by the name of " +
                                                  file.filename().string() +
                                                  ": end it in .mp4, .mov, .mkv, .webm or .avi.");
    }
    inside->format.reset(format);
    RETURN_IF_ERROR(inside->openEncoder(recipe, width, height));
    RETURN_IF_ERROR(inside->openContainer(recipe));
    auto& frame = *inside->frame;
    frame.format = inside->codec->pix_fmt;
    frame.width = width;
    frame.height = height;
    if (const int code = av_frame_get_buffer(&frame, 0); code < 0) {
        return inside->failure("memory for a picture ran out", code);
    }
    return VideoWriter(std::move(inside));
}

VideoWriter::VideoWriter(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
VideoWriter::VideoWriter(VideoWriter&&) noexcept = default;
VideoWriter& VideoWriter::operator=(VideoWriter&&) noexcept = default;
VideoWriter::~VideoWriter() = default;

double VideoWriter::tick() const
{
    // The coarser of the two clocks decides: matroska counts milliseconds whatever it is asked.
    return std::max(av_q2d(m_inside->stream->time_base), av_q2d(m_inside->codec->time_base));
}

bool VideoWriter::canVaryRate() const
{
    return std::strcmp(m_inside->format->oformat->name, "avi") != 0;
}

Outcome<void> VideoWriter::Inside::drain()
{
    for (;;) {
        const int code = avcodec_receive_packet(codec.get(), packet.get());
        if (code == AVERROR(EAGAIN) || code == AVERROR_EOF) {
            return {};
        }
        if (code < 0) {
            return failure("the encoder stopped", code);
        }
        packet->stream_index = stream->index;
        if (packet->duration == 0) { // else the last frame would last no time at all
            packet->duration = av_rescale_q(1, av_inv_q(codec->framerate), codec->time_base);
        }
        av_packet_rescale_ts(packet.get(), codec->time_base, stream->time_base);
        if (const int wrote = av_interleaved_write_frame(format.get(), packet.get()); wrote < 0) {
            return failure("is the disk full?", wrote);
        }
    }
}

Outcome<void> VideoWriter::write(const cv::Mat& planes, std::int64_t stamp)
{
    auto& frame = *m_inside->frame;
    if (const int code = av_frame_make_writable(&frame); code < 0) {
        return m_inside->failure("memory for a picture ran out", code);
    }
    const auto* from = planes.ptr<std::uint8_t>();
    const int sizes[3][2] = {{frame.width, frame.height},
                             {frame.width / 2, frame.height / 2},
                             {frame.width / 2, frame.height / 2}};
    for (std::size_t plane = 0; plane < 3; ++plane) {
        const auto [width, height] = sizes[plane];
        // Limited range holds 219 steps of luma and 224 of chroma; JPEG uses all 255 of both.
        const double gain = plane == 0 ? 255.0 / 219.0 : 255.0 / 224.0;
        const double shift = plane == 0 ? -16.0 * gain : 128.0 - 128.0 * gain;
        for (int y = 0; y < height; ++y, from += width) {
            auto* to = frame.data[plane] + y * frame.linesize[plane];
            if (m_inside->fullRange) {
                for (int x = 0; x < width; ++x) {
                    to[x] = cv::saturate_cast<std::uint8_t>(gain * from[x] + shift);
                }
            } else {
                std::memcpy(to, from, static_cast<std::size_t>(width));
            }
        }
    }
    // From the container's ticks to the encoder's, which are as fine or finer.
    frame.pts =
        std::llround(static_cast<double>(stamp) * tick() / av_q2d(m_inside->codec->time_base));
    if (const int code = avcodec_send_frame(m_inside->codec.get(), &frame); code < 0) {
        return m_inside->failure("the encoder refused a picture", code);
    }
    return m_inside->drain();
}

Outcome<void> VideoWriter::finish()
{
    if (const int code = avcodec_send_frame(m_inside->codec.get(), nullptr); code < 0) {
        return m_inside->failure("the encoder did not end", code);
    }
    RETURN_IF_ERROR(m_inside->drain());
    if (const int code = av_write_trailer(m_inside->format.get()); code < 0) {
        return m_inside->failure("is the disk full?", code);
    }
    if (const int code = avio_closep(&m_inside->format->pb); code < 0) {
        return m_inside->failure("is the disk full?", code);
    }
    m_inside->finished = true;
    return {};
}

} // namespace latemile::maker
