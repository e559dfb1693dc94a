// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/opened_file.hpp"

#include "core/clip/decoder_words.hpp"
#include "core/clip/unreadable.hpp"

extern "C" {
#include <libavutil/log.h>
}

#include <algorithm>
#include <tuple>

namespace latemile {

namespace {

constexpr auto longestOpening = std::chrono::seconds(60);

/// Containers that hold their pictures themselves. Play lists (hls, concat, dash, ...) and
/// demuxers of devices or text are left out on purpose.
constexpr const char* containers =
    "mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,avi,mpegts,mpeg,mxf,flv,ogg,asf,dv,ivf,nut,h264,hevc,"
    "m4v,mjpeg,obu,gif,yuv4mpegpipe";

int refuseOtherFiles(AVFormatContext*, AVIOContext**, const char*, int, AVDictionary**)
{
    return AVERROR(EPERM);
}

bool isCover(const AVStream& stream)
{
    return (stream.disposition & (AV_DISPOSITION_ATTACHED_PIC | AV_DISPOSITION_TIMED_THUMBNAILS)) !=
           0;
}

std::string inWords(const AVStream& stream)
{
    const auto& coded = *stream.codecpar;
    return std::to_string(stream.index) + " (" + avcodec_get_name(coded.codec_id) + ", " +
           std::to_string(coded.width) + "x" + std::to_string(coded.height) + ")";
}

/// Larger is better: one that can be decoded, the file's own default, the most pixels.
auto worth(const AVStream& stream)
{
    const auto& coded = *stream.codecpar;
    return std::tuple(avcodec_find_decoder(coded.codec_id) != nullptr,
                      (stream.disposition & AV_DISPOSITION_DEFAULT) != 0,
                      std::int64_t{coded.width} * coded.height);
}

std::string joined(const std::vector<std::string>& parts)
{
    std::string words;
    for (const auto& part : parts) {
        words += (words.empty() ? "" : ", ") + part;
    }
    return words;
}

} // namespace

OpenedFile::OpenedFile(FileBytes bytes, AvDemuxer demuxer)
    : m_bytes(std::move(bytes)), m_demuxer(std::move(demuxer))
{
}

/// The demuxer goes before the bytes that it reads.
OpenedFile& OpenedFile::operator=(OpenedFile&& other) noexcept
{
    m_demuxer = std::move(other.m_demuxer);
    m_bytes = std::move(other.m_bytes);
    m_stream = other.m_stream;
    m_videoStreams = std::move(other.m_videoStreams);
    return *this;
}

Outcome<OpenedFile> OpenedFile::open(const ClipFile& file, std::optional<int> videoStream)
{
    listenToDecoders(); // core returns errors and logs nothing
    ASSIGN_OR_RETURN(auto bytes, FileBytes::of(file));
    bytes.setDeadline(std::chrono::steady_clock::now() + longestOpening);
    auto* raw = avformat_alloc_context();
    if (!raw) {
        return fail(Error::Kind::Unsupported, "There is not enough memory; close other programs.");
    }
    raw->pb = bytes.context();
    raw->flags |= AVFMT_FLAG_CUSTOM_IO;
    raw->io_open = refuseOtherFiles;
    AvOptions options;
    options.set("format_whitelist", containers)
        .set("protocol_whitelist", "")
        .set("max_streams", "64");
    // On failure libav frees the demuxer itself.
    const int code = avformat_open_input(&raw, "", nullptr, options.address());
    if (code < 0) {
        return tl::unexpected(unreadable(file, code));
    }
    OpenedFile opened(std::move(bytes), AvDemuxer(raw));
    RETURN_IF_ERROR(opened.readHeader());
    RETURN_IF_ERROR(opened.chooseStream(videoStream));
    opened.m_bytes.clearDeadline();
    return opened;
}

Outcome<void> OpenedFile::readHeader()
{
    const auto count = m_demuxer->nb_streams;
    std::vector<AVDictionary*> perStream(count, nullptr);
    for (auto& options : perStream) {
        av_dict_set_int(&options, "max_pixels", largestPicture, 0);
    }
    const int code = avformat_find_stream_info(m_demuxer.get(), perStream.data());
    for (auto& options : perStream) {
        av_dict_free(&options);
    }
    if (code < 0) {
        return tl::unexpected(unreadable(file(), code));
    }
    return {};
}

Outcome<void> OpenedFile::chooseStream(std::optional<int> wanted)
{
    const AVStream* best = nullptr;
    for (unsigned i = 0; i < m_demuxer->nb_streams; ++i) {
        auto& stream = *m_demuxer->streams[i];
        stream.discard = AVDISCARD_ALL;
        if (stream.codecpar->codec_type != AVMEDIA_TYPE_VIDEO || isCover(stream)) {
            continue;
        }
        m_videoStreams.push_back(inWords(stream));
        const bool isWanted = wanted && *wanted == stream.index;
        if (isWanted || (!wanted && (!best || worth(stream) > worth(*best)))) {
            best = &stream;
        }
    }
    if (!best && m_videoStreams.empty()) {
        return fail(Error::Kind::Unsupported,
                    "The file " + name() +
                        (hasSound() ? " holds sound but no moving picture; choose the video itself."
                                    : " holds no moving picture; choose another file."));
    }
    if (!best) {
        return fail(Error::Kind::NotFound, "The file " + name() + " has no video stream " +
                                               std::to_string(*wanted) + "; it has " +
                                               joined(m_videoStreams) + ".");
    }
    m_stream = best->index;
    stream()->discard = AVDISCARD_DEFAULT;
    return {};
}

bool OpenedFile::hasSound() const
{
    for (unsigned i = 0; i < m_demuxer->nb_streams; ++i) {
        if (m_demuxer->streams[i]->codecpar->codec_type == AVMEDIA_TYPE_AUDIO) {
            return true;
        }
    }
    return false;
}

} // namespace latemile
