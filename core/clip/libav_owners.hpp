// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Private to core/clip and the film writer: every libav object has an owner from its first line.

#include <memory>
#include <string>
#include <utility>

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/dict.h>
#include <libavutil/frame.h>
#include <libavutil/mem.h>
#include <libswscale/swscale.h>
}

namespace latemile {

/// Frees by a libav function that takes the address of the pointer.
template <auto Function>
struct FreedBy {
    template <class T>
    void operator()(T* object) const
    {
        Function(&object);
    }
};

struct ScalerFreed {
    void operator()(SwsContext* scaler) const { sws_freeContext(scaler); }
};

using AvFrame = std::unique_ptr<AVFrame, FreedBy<av_frame_free>>;
using AvPacket = std::unique_ptr<AVPacket, FreedBy<av_packet_free>>;
using AvCodecContext = std::unique_ptr<AVCodecContext, FreedBy<avcodec_free_context>>;
using AvDemuxer = std::unique_ptr<AVFormatContext, FreedBy<avformat_close_input>>;
using AvScaler = std::unique_ptr<SwsContext, ScalerFreed>;
/// A decoded frame that several holders may look at and nobody changes.
using SharedAvFrame = std::shared_ptr<const AVFrame>;

[[nodiscard]] inline SharedAvFrame shared(AvFrame frame)
{
    return {frame.release(), [](const AVFrame* held) {
                auto* freed = const_cast<AVFrame*>(held);
                av_frame_free(&freed);
            }};
}

/// A dictionary of options, freed when it goes.
class AvOptions {
public:
    AvOptions() = default;
    AvOptions(const AvOptions&) = delete;
    AvOptions& operator=(const AvOptions&) = delete;
    AvOptions(AvOptions&& other) noexcept : m_options(std::exchange(other.m_options, nullptr)) {}
    AvOptions& operator=(AvOptions&&) = delete;
    ~AvOptions() { av_dict_free(&m_options); }

    AvOptions& set(const char* key, const std::string& value)
    {
        av_dict_set(&m_options, key, value.c_str(), 0);
        return *this;
    }
    [[nodiscard]] AVDictionary** address() { return &m_options; }

private:
    AVDictionary* m_options = nullptr;
};

/// libav's own words for a result code, for Error::detail.
[[nodiscard]] inline std::string libavWords(int code)
{
    char words[AV_ERROR_MAX_STRING_SIZE] = {};
    av_strerror(code, words, sizeof words);
    return words;
}

} // namespace latemile
