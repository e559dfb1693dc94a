// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/open_clip.hpp"

#include "core/clip/clip_facts.hpp"
#include "core/clip/field_pictures.hpp"
#include "core/clip/frame_times.hpp"
#include "core/clip/numbers_in_words.hpp"
#include "core/clip/opened_file.hpp"
#include "core/clip/real_time.hpp"
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/worker_pictures.hpp"

#include <algorithm>

namespace latemile {

namespace {

StatedTiming statedTiming(const AVStream& stream)
{
    const auto rate = stream.avg_frame_rate.num > 0 ? stream.avg_frame_rate : stream.r_frame_rate;
    return {.tick = av_q2d(stream.time_base),
            .statedRate = rate.num > 0 && rate.den > 0 ? av_q2d(rate) : 0};
}

/// From the file's own zero to the end of its last frame, seconds.
double endOf(const FramePictures& pictures, const FrameTimes& times)
{
    const auto ordinal = pictures.order().ordinalOf(0);
    const auto first = pictures.index().packets[static_cast<std::size_t>(ordinal)].pts;
    const double start = first == AV_NOPTS_VALUE
                             ? 0
                             : std::max(0.0, static_cast<double>(first) *
                                                 av_q2d(pictures.file().stream()->time_base));
    return start + times.seconds.back() + times.lastInterval;
}

/// Twice as many pictures, each second one half-way to the next frame.
FrameTimes timesOfFields(const FrameTimes& frames)
{
    FrameTimes fields;
    for (std::size_t i = 0; i < frames.seconds.size(); ++i) {
        const double interval = i + 1 < frames.seconds.size()
                                    ? frames.seconds[i + 1] - frames.seconds[i]
                                    : frames.lastInterval;
        fields.seconds.push_back(frames.seconds[i]);
        fields.seconds.push_back(frames.seconds[i] + interval / 2);
    }
    fields.rate = frames.rate * 2;
    fields.isVariable = frames.isVariable;
    fields.lastInterval = frames.lastInterval / 2;
    return fields;
}

FrameIndex realIndex(const FrameTimes& times, double slowMotion)
{
    std::vector<Seconds> real;
    real.reserve(times.seconds.size());
    for (const double seconds : times.seconds) {
        real.emplace_back(seconds / slowMotion);
    }
    return FrameIndex(std::move(real));
}

double longestGap(const FrameIndex& index)
{
    double longest = 0;
    for (std::int64_t frame = 1; frame < index.size(); ++frame) {
        longest = std::max(longest, index.interval({frame}).count());
    }
    return longest;
}

void addTimes(ClipFacts& facts, const FrameTimes& times, const RealTime& real,
              const FrameIndex& index)
{
    facts.frames = index.size();
    facts.containerRate = times.rate;
    facts.slowMotion = real.slowMotion;
    facts.captureRate = times.rate * real.slowMotion;
    facts.captureRateFrom = real.from;
    facts.variableRate = times.isVariable;
    facts.longestGap = longestGap(index);
    facts.duration = index.times().back() + Seconds{times.lastInterval / real.slowMotion};
    if (times.isVariable) {
        facts.remarks.push_back("The frame rate varies (longest gap " +
                                inWords(facts.longestGap * 1000) +
                                " ms); each frame keeps its own time.");
    }
}

void append(std::vector<std::string>& remarks, const std::vector<std::string>& more)
{
    remarks.insert(remarks.end(), more.begin(), more.end());
}

} // namespace

Outcome<OpenClip> openClip(const std::filesystem::path& path, const ClipOptions& options)
{
    ASSIGN_OR_RETURN(const auto file, ClipFile::open(path));
    const auto terms = workerTerms();
    return terms ? openInWorker(file, options, *terms) : openHere(file, options);
}

Outcome<OpenClip> openHere(const ClipFile& clipFile, const ClipOptions& options)
{
    std::vector<std::string> remarks;
    ASSIGN_OR_RETURN(auto file, OpenedFile::open(clipFile, options.videoStream));
    ASSIGN_OR_RETURN(auto frames, FramePictures::open(std::move(file), remarks, options.goOn));
    const auto& stream = *frames->file().stream();
    auto times =
        frameTimes(frames->index(), frames->order().shown(), statedTiming(stream), remarks);
    ASSIGN_OR_RETURN(const auto real,
                     realTime(times.rate, options.captureRate,
                              captureRateIn(*frames->file().demuxer(), stream), remarks));
    const UprightShape shape = uprightShapeOf(*frames);
    OpenClip clip{
        .pictures = nullptr, .shape = shape, .index = {}, .facts = pictureFacts(*frames, shape)};
    append(clip.facts.remarks, remarks);
    if (const auto early = endsEarly(*frames, times.rate, endOf(*frames, times))) {
        clip.facts.remarks.push_back(*early);
    }
    const bool asFields = clip.facts.interlaced && options.fieldsAsFrames;
    if (clip.facts.interlaced) {
        clip.facts.remarks.push_back(
            asFields ? "The clip is interlaced; each field is read as a picture of its own."
                     : "The clip is interlaced; read as fields it has twice the rate and no combed "
                       "edges.");
    }
    times = asFields ? timesOfFields(times) : times;
    clip.index = realIndex(times, real.slowMotion);
    addTimes(clip.facts, times, real, clip.index);
    if (asFields) {
        ASSIGN_OR_RETURN(clip.pictures, FieldPictures::open(std::move(frames)));
    } else {
        clip.pictures = std::move(frames);
    }
    return clip;
}

} // namespace latemile
