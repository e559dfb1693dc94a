// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_facts.hpp"

#include "core/clip/colour.hpp"
#include "core/clip/orientation.hpp"
#include "core/clip/stated_size.hpp"

extern "C" {
#include <libavutil/display.h>
#include <libavutil/pixdesc.h>
}

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <string_view>

namespace latemile {

namespace {

constexpr double mostStretched = 8; ///< beyond it a pixel aspect is taken for a false header

double pixelAspectOf(const FramePictures& pictures)
{
    // libav asks for pointers to what it does not change.
    const auto aspect =
        av_guess_sample_aspect_ratio(pictures.file().demuxer(), pictures.file().stream(),
                                     const_cast<AVFrame*>(&pictures.firstFrame()));
    const double value = aspect.num > 0 && aspect.den > 0 ? av_q2d(aspect) : 1.0;
    return value >= 1 / mostStretched && value <= mostStretched ? value : 1.0;
}

/// Libav's names of what phones write: QuickTime's user data and metadata keys, Android's own.
std::string textOf(const AVFormatContext& demuxer, std::initializer_list<const char*> keys)
{
    for (const char* key : keys) {
        if (const auto* entry = av_dict_get(demuxer.metadata, key, nullptr, 0)) {
            return entry->value;
        }
    }
    return {};
}

std::string cameraOf(const AVFormatContext& demuxer)
{
    const auto make =
        textOf(demuxer, {"com.apple.quicktime.make", "com.android.manufacturer", "make"});
    const auto model = textOf(demuxer, {"com.apple.quicktime.model", "com.android.model", "model"});
    return make.empty() || model.empty() ? make + model : make + " " + model;
}

/// The length in seconds that the header gives the video stream; 0 where it gives none.
double statedLength(const OpenedFile& file)
{
    const auto& stream = *file.stream();
    if (stream.duration != AV_NOPTS_VALUE && stream.duration > 0) {
        return static_cast<double>(stream.duration) * av_q2d(stream.time_base);
    }
    // Matroska: "00:00:02.500000000" beside the stream, else the length of the whole file, which
    // sound may make longer.
    const auto* tag = av_dict_get(stream.metadata, "DURATION", nullptr, 0);
    int hours = 0;
    int minutes = 0;
    int used = 0;
    if (tag && std::sscanf(tag->value, "%d:%d:%n", &hours, &minutes, &used) == 2 && used > 0) {
        const std::string_view rest(tag->value + used);
        double seconds = 0;
        if (std::from_chars(rest.data(), rest.data() + rest.size(), seconds).ec == std::errc{}) {
            return hours * 3600.0 + minutes * 60.0 + seconds;
        }
    }
    const auto length = file.demuxer()->duration;
    const bool isOfVideo = length != AV_NOPTS_VALUE && !file.hasSound();
    return isOfVideo ? static_cast<double>(length) / AV_TIME_BASE : 0;
}

} // namespace

UprightShape uprightShapeOf(const FramePictures& pictures)
{
    const auto& frame = pictures.firstFrame();
    const auto matrix = displayMatrixOf(*pictures.file().stream());
    return {.storedWidth = frame.width,
            .storedHeight = frame.height,
            .pixelAspect = pixelAspectOf(pictures),
            .orientation = matrix ? orientationOf(*matrix) : Orientation{}};
}

bool isInterlaced(const FramePictures& pictures)
{
#ifdef AV_FRAME_FLAG_INTERLACED
    const bool isTagged = (pictures.firstFrame().flags & AV_FRAME_FLAG_INTERLACED) != 0;
#else
    const bool isTagged = pictures.firstFrame().interlaced_frame != 0;
#endif
    const auto order = pictures.file().stream()->codecpar->field_order;
    return isTagged || (order != AV_FIELD_UNKNOWN && order != AV_FIELD_PROGRESSIVE);
}

ClipFacts pictureFacts(const FramePictures& pictures, const UprightShape& shape)
{
    const auto& frame = pictures.firstFrame();
    const auto& file = pictures.file();
    const Colour colour = colourOf(frame);
    ClipFacts facts;
    facts.container = file.demuxer()->iformat->name;
    facts.codec = avcodec_get_name(file.stream()->codecpar->codec_id);
    const auto* format = av_get_pix_fmt_name(static_cast<AVPixelFormat>(frame.format));
    facts.pixelFormat = format ? format : "";
    facts.width = shape.width();
    facts.height = shape.height();
    facts.storedWidth = shape.storedWidth;
    facts.storedHeight = shape.storedHeight;
    facts.rotationDegrees = shape.orientation.clockwiseDegrees;
    facts.mirrored = shape.orientation.isMirrored;
    facts.pixelAspect = shape.pixelAspect;
    facts.colour = inWords(colour);
    facts.highDynamicRange = colour.isHighDynamicRange();
    facts.interlaced = isInterlaced(pictures);
    facts.frames = pictures.count();
    facts.camera = cameraOf(*file.demuxer());
    if (facts.mirrored) {
        facts.remarks.push_back("The file asks to be shown mirrored: left and right of the runner "
                                "may be exchanged; check with the runner.");
    }
    if (facts.highDynamicRange) {
        facts.remarks.push_back("The clip has a high dynamic range; its brightness is brought to "
                                "that of an ordinary screen.");
    }
    if (file.videoStreams().size() > 1) {
        std::string words;
        for (const auto& stream : file.videoStreams()) {
            words += (words.empty() ? "" : ", ") + stream;
        }
        facts.remarks.push_back("The file has several video streams: " + words + "; stream " +
                                std::to_string(file.streamIndex()) + " is used.");
    }
    return facts;
}

std::optional<std::string> endsEarly(const FramePictures& pictures, double rate, double end)
{
    const auto& stream = *pictures.file().stream();
    const auto held = pictures.count();
    auto promised = std::int64_t{0};
    if (stream.nb_frames > 0) {
        // The header counts what is stored, shown or not.
        const auto whole =
            std::count_if(pictures.index().packets.begin(), pictures.index().packets.end(),
                          [](const PacketEntry& packet) { return packet.isWhole; });
        promised = held + stream.nb_frames - whole;
    } else {
        const double length = statedLength(pictures.file());
        const double missing = (length - end) * rate;
        promised = held + (missing > 1.5 ? std::llround(missing) : 0);
    }
    if (promised > held) {
        return "The clip ends after " + std::to_string(held) + " of its " +
               std::to_string(promised) + " frames.";
    }
    if (pictures.index().endedEarly) {
        return "The clip is damaged after frame " + std::to_string(held - 1) +
               "; what follows cannot be read.";
    }
    const auto stated = statedSize(pictures.file().file());
    const auto size = pictures.file().file().size();
    if (stated && *stated > size) {
        return "The file was cut off: " + std::to_string(size) + " of its " +
               std::to_string(*stated) + " bytes are there, and frames at its end may be missing.";
    }
    return std::nullopt;
}

} // namespace latemile
