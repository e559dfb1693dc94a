// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/film/film_writer.hpp"

#include "core/clip/libav_owners.hpp"
#include "core/files/file_system.hpp"
#include "core/files/new_file.hpp"
#include "core/whole_file.hpp"

#include <unistd.h>

#include <cerrno>
#include <utility>

namespace latemile {

namespace {

/// The film's bytes on their way to a disk: libav writes and goes back through it, and what the
/// disk refuses is kept, since libav tells no more than that something was.
class Sink {
public:
    static constexpr int blockBytes = 1 << 16;

    explicit Sink(NewFile file) : m_file(std::move(file))
    {
        auto* block = static_cast<unsigned char*>(av_malloc(blockBytes));
        m_io = avio_alloc_context(block, blockBytes, 1, this, nullptr, &Sink::write, &Sink::seek);
    }
    Sink(const Sink&) = delete;
    Sink& operator=(const Sink&) = delete;
    ~Sink()
    {
        av_freep(&m_io->buffer);
        avio_context_free(&m_io);
    }

    [[nodiscard]] AVIOContext* io() const { return m_io; }
    [[nodiscard]] NewFile& file() { return m_file; }
    [[nodiscard]] int fault() const { return m_fault; } ///< errno, 0: none

private:
    static int write(void* self, std::uint8_t* bytes, int count)
    {
        auto& sink = *static_cast<Sink*>(self);
        const auto done =
            writeAll(disk(), sink.m_file.descriptor(),
                     {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(count)});
        if (!done) {
            sink.m_fault = done.error();
            return AVERROR(done.error());
        }
        return count;
    }
    static std::int64_t seek(void* self, std::int64_t offset, int whence)
    {
        auto& sink = *static_cast<Sink*>(self);
        if (whence == AVSEEK_SIZE) {
            return AVERROR(ENOSYS);
        }
        const auto at = ::lseek(sink.m_file.descriptor(), offset, whence);
        return at < 0 ? AVERROR(errno) : at;
    }

    NewFile m_file;
    AVIOContext* m_io{};
    int m_fault{};
};

struct MuxerFreed {
    void operator()(AVFormatContext* muxer) const { avformat_free_context(muxer); }
};

} // namespace

struct FilmWriter::Inside {
    std::filesystem::path file;
    std::unique_ptr<Sink> sink;
    std::unique_ptr<AVFormatContext, MuxerFreed> muxer;
    AvCodecContext encoder;
    AvScaler scaler;
    AvFrame frame;
    AvPacket packet;

    [[nodiscard]] tl::unexpected<Error> fault(int code) const
    {
        if (sink && sink->fault() != 0) {
            return writeFault(file, sink->fault());
        }
        return fail(Error::Kind::Unsupported,
                    "The film " + file.filename().string() +
                        " could not be encoded; nothing was written.",
                    libavWords(code));
    }

    Outcome<void> openFile()
    {
        ASSIGN_OR_RETURN(auto opened, NewFile::begin(file));
        sink = std::make_unique<Sink>(std::move(opened));
        return {};
    }

    Outcome<void> openEncoder(int width, int height, int rate)
    {
        const auto* codec = avcodec_find_encoder_by_name("libx264");
        codec = codec != nullptr ? codec : avcodec_find_encoder(AV_CODEC_ID_H264);
        if (codec == nullptr) {
            return fail(Error::Kind::Unsupported,
                        "This machine has no H.264 encoder: install libavcodec with libx264.");
        }
        encoder.reset(avcodec_alloc_context3(codec));
        encoder->width = width;
        encoder->height = height;
        encoder->time_base = {1, rate};
        encoder->framerate = {rate, 1};
        encoder->pix_fmt = AV_PIX_FMT_YUV420P;
        encoder->colorspace = AVCOL_SPC_BT709;
        encoder->color_primaries = AVCOL_PRI_BT709;
        encoder->color_trc = AVCOL_TRC_BT709;
        encoder->color_range = AVCOL_RANGE_MPEG;
        encoder->flags |= AV_CODEC_FLAG_BITEXACT | AV_CODEC_FLAG_GLOBAL_HEADER;
        AvOptions options;
        options.set("preset", "veryfast").set("crf", "20");
        const int opened = avcodec_open2(encoder.get(), codec, options.address());
        return opened < 0 ? fault(opened) : Outcome<void>();
    }

    Outcome<void> openMuxer()
    {
        AVFormatContext* made = nullptr;
        const int allocated = avformat_alloc_output_context2(&made, nullptr, "mp4", nullptr);
        muxer.reset(made);
        AVStream* stream = made != nullptr ? avformat_new_stream(made, nullptr) : nullptr;
        if (stream == nullptr) {
            return fault(allocated);
        }
        made->pb = sink->io();
        made->flags |= AVFMT_FLAG_CUSTOM_IO | AVFMT_FLAG_BITEXACT; // no name of a maker, no day
        stream->time_base = encoder->time_base;
        avcodec_parameters_from_context(stream->codecpar, encoder.get());
        const int begun = avformat_write_header(made, nullptr);
        return begun < 0 ? fault(begun) : Outcome<void>();
    }

    Outcome<void> openScaler()
    {
        const int width = encoder->width;
        const int height = encoder->height;
        scaler.reset(sws_getContext(width, height, AV_PIX_FMT_BGR0, width, height, encoder->pix_fmt,
                                    SWS_BICUBIC, nullptr, nullptr, nullptr));
        frame.reset(av_frame_alloc());
        packet.reset(av_packet_alloc());
        if (!scaler || !frame || !packet) {
            return fault(AVERROR(ENOMEM));
        }
        constexpr int whole = 1 << 16;
        sws_setColorspaceDetails(scaler.get(), sws_getCoefficients(SWS_CS_ITU709), 1,
                                 sws_getCoefficients(SWS_CS_ITU709), 0, 0, whole, whole);
        frame->format = encoder->pix_fmt;
        frame->width = width;
        frame->height = height;
        frame->pts = -1; // the first picture added has time 0
        const int got = av_frame_get_buffer(frame.get(), 0);
        return got < 0 ? fault(got) : Outcome<void>();
    }

    /// A null frame: the encoder gives what it still holds.
    Outcome<void> encode(const AVFrame* next)
    {
        const int sent = avcodec_send_frame(encoder.get(), next);
        if (sent < 0) {
            return fault(sent);
        }
        for (;;) {
            const int got = avcodec_receive_packet(encoder.get(), packet.get());
            if (got == AVERROR(EAGAIN) || got == AVERROR_EOF) {
                return {};
            }
            if (got < 0) {
                return fault(got);
            }
            auto* stream = muxer->streams[0];
            packet->duration = 1;
            av_packet_rescale_ts(packet.get(), encoder->time_base, stream->time_base);
            packet->stream_index = stream->index;
            const int written = av_interleaved_write_frame(muxer.get(), packet.get());
            if (written < 0) {
                return fault(written);
            }
        }
    }

    Outcome<void> settle()
    {
        const int ended = av_write_trailer(muxer.get());
        avio_flush(sink->io());
        if (ended < 0 || sink->fault() != 0) {
            return fault(ended);
        }
        return sink->file().settle();
    }
};

FilmWriter::FilmWriter(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
FilmWriter::FilmWriter(FilmWriter&&) noexcept = default;
FilmWriter& FilmWriter::operator=(FilmWriter&&) noexcept = default;
FilmWriter::~FilmWriter() = default;

Outcome<FilmWriter> FilmWriter::begin(const std::filesystem::path& file, int width, int height,
                                      int picturesPerSecond)
{
    auto inside = std::make_unique<Inside>();
    inside->file = file;
    RETURN_IF_ERROR(inside->openEncoder(width, height, picturesPerSecond));
    RETURN_IF_ERROR(inside->openFile());
    RETURN_IF_ERROR(inside->openMuxer());
    RETURN_IF_ERROR(inside->openScaler());
    return FilmWriter(std::move(inside));
}

Outcome<void> FilmWriter::add(const std::uint8_t* pixels, std::size_t bytesPerRow)
{
    auto& in = *m_inside;
    const int writable = av_frame_make_writable(in.frame.get());
    if (writable < 0) {
        return in.fault(writable);
    }
    const std::uint8_t* planes[] = {pixels};
    const int strides[] = {static_cast<int>(bytesPerRow)};
    sws_scale(in.scaler.get(), planes, strides, 0, in.encoder->height, in.frame->data,
              in.frame->linesize);
    ++in.frame->pts;
    return in.encode(in.frame.get());
}

Outcome<void> FilmWriter::finish()
{
    RETURN_IF_ERROR(m_inside->encode(nullptr));
    return m_inside->settle();
}

} // namespace latemile
