// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/field_pictures.hpp"

#include "core/clip/clip_facts.hpp"

#include <algorithm>

namespace latemile {

namespace {

constexpr auto none = Presentation::none;
constexpr std::size_t readyFields = 8;

tl::unexpected<Error> filterFailed(int code)
{
    return fail(Error::Kind::Unsupported,
                "The fields of this clip cannot be taken apart; read it frame by frame instead.",
                libavWords(code));
}

std::string sourceArguments(const AVFrame& frame)
{
    std::string text = "video_size=" + std::to_string(frame.width) + "x" +
                       std::to_string(frame.height) + ":pix_fmt=" + std::to_string(frame.format) +
                       ":time_base=1/1:pixel_aspect=1/1";
#if LIBAVFILTER_VERSION_INT >= AV_VERSION_INT(9, 16, 100)
    text += ":colorspace=" + std::to_string(frame.colorspace) +
            ":range=" + std::to_string(frame.color_range);
#endif
    return text;
}

bool isTagged(const AVFrame& frame)
{
#ifdef AV_FRAME_FLAG_INTERLACED
    return (frame.flags & AV_FRAME_FLAG_INTERLACED) != 0;
#else
    return frame.interlaced_frame != 0;
#endif
}

/// A frame says itself which field is earlier; where it does not, the container may.
const char* parityOf(const FramePictures& frames)
{
    const auto order = frames.file().stream()->codecpar->field_order;
    if (isTagged(frames.firstFrame())) {
        return "auto";
    }
    return order == AV_FIELD_BB || order == AV_FIELD_TB ? "bff" : "tff";
}

} // namespace

FieldPictures::FieldPictures(std::unique_ptr<FramePictures> frames, const FieldFilter& filter)
    : m_frames(std::move(frames)), m_filter(filter)
{
}

Outcome<std::unique_ptr<FieldPictures>> FieldPictures::open(std::unique_ptr<FramePictures> frames)
{
    const auto& filter = fieldFilter();
    if (!filter) {
        return tl::unexpected(filter.error());
    }
    std::unique_ptr<FieldPictures> fields(new FieldPictures(std::move(frames), *filter));
    RETURN_IF_ERROR(fields->restartAt(0, fields->m_frames->firstFrame()));
    return fields;
}

Outcome<void> FieldPictures::restartAt(std::int64_t frame, const AVFrame& like)
{
    m_graph.reset(m_filter.makeGraph());
    m_ready.clear();
    m_firstFed = frame;
    m_lastFed = frame - 1;
    const std::string arguments =
        std::string("mode=send_field:deint=all:parity=") + parityOf(*m_frames);
    AVFilterContext* filter = nullptr;
    int code = m_graph ? 0 : AVERROR(ENOMEM);
    const auto add = [&](AVFilterContext** made, const char* name, const char* options) {
        code = code < 0 ? code
                        : m_filter.create(made, m_filter.byName(name), name, options, nullptr,
                                          m_graph.get());
    };
    const auto link = [&](AVFilterContext* from, AVFilterContext* to) {
        code = code < 0 ? code : m_filter.link(from, 0, to, 0);
    };
    add(&m_in, "buffer", sourceArguments(like).c_str());
    add(&filter, "bwdif", arguments.c_str());
    add(&m_out, "buffersink", nullptr);
    link(m_in, filter);
    link(filter, m_out);
    code = code < 0 ? code : m_filter.configure(m_graph.get(), nullptr);
    if (code < 0) {
        m_graph.reset();
        m_lastFed = none;
        return filterFailed(code);
    }
    return {};
}

Outcome<void> FieldPictures::feed(std::int64_t frame, const SharedAvFrame& picture)
{
    if (!m_graph || frame != m_lastFed + 1) {
        RETURN_IF_ERROR(restartAt(frame, *picture));
    }
    AvFrame fed(av_frame_clone(picture.get()));
    if (!fed) {
        return filterFailed(AVERROR(ENOMEM));
    }
    // The filter gives the two fields of frame n the times 2n and n + (n + 1): their ranks.
    fed->pts = frame;
    const int code = m_filter.feed(m_in, fed.get());
    if (code < 0) {
        return filterFailed(code);
    }
    m_lastFed = frame;
    return {};
}

/// The first frame fed had no neighbour before it, so its fields are exact only where there is
/// none in the clip either.
bool FieldPictures::collect(const Passing& passing)
{
    bool goOn = true;
    for (AvFrame field(av_frame_alloc()); field && m_filter.collect(m_out, field.get()) >= 0;
         field.reset(av_frame_alloc())) {
        const auto rank = field->pts;
        if (m_firstFed != 0 && rank / 2 <= m_firstFed) {
            continue;
        }
        const auto held = shared(std::move(field));
        m_ready[rank] = held;
        if (m_ready.size() > readyFields) {
            m_ready.erase(m_ready.begin());
        }
        goOn = (!passing || passing(rank, held)) && goOn;
    }
    return goOn;
}

Outcome<void> FieldPictures::drain()
{
    const int code = m_filter.feed(m_in, nullptr);
    return code < 0 ? Outcome<void>(filterFailed(code)) : Outcome<void>();
}

bool FieldPictures::canGoOnTo(std::int64_t frame) const
{
    const bool hasNeighbourBefore = m_firstFed < frame || m_firstFed == 0;
    return m_graph && hasNeighbourBefore && m_lastFed <= frame &&
           m_frames->groupStart(frame) <= m_lastFed + 1;
}

/// Feeds all from `first` on, and what decoding passes before it where somebody wants that too.
Outcome<void> FieldPictures::feedUpTo(std::int64_t frame, std::int64_t first,
                                      const Passing& passing)
{
    const auto last = std::min(frame + 1, m_frames->count() - 1);
    for (auto next = first; next <= last; ++next) {
        Outcome<void> fed;
        const auto take = [&](std::int64_t rank, const SharedAvFrame& picture) {
            const bool isWanted = rank > m_lastFed && (rank >= first || passing);
            if (isWanted && fed) {
                fed = feed(rank, picture);
                return collect(passing);
            }
            return true;
        };
        ASSIGN_OR_RETURN(const auto picture, m_frames->picture(next, take));
        RETURN_IF_ERROR(fed);
    }
    if (last == frame) {
        RETURN_IF_ERROR(drain());
        collect(passing);
        m_graph.reset();
        m_lastFed = none;
    }
    return {};
}

Outcome<SharedAvFrame> FieldPictures::picture(std::int64_t rank, const Passing& passing)
{
    const auto frame = rank / 2;
    if (const auto found = m_ready.find(rank); found != m_ready.end()) {
        const auto held = found->second;
        if (passing) {
            passing(rank, held);
        }
        return held;
    }
    auto first = m_lastFed + 1;
    if (!canGoOnTo(frame)) {
        m_graph.reset();
        m_ready.clear();
        m_lastFed = none;
        first = std::max<std::int64_t>(frame - 1, 0);
    }
    RETURN_IF_ERROR(feedUpTo(frame, first, passing));
    const auto found = m_ready.find(rank);
    if (found == m_ready.end()) {
        return filterFailed(AVERROR_BUG);
    }
    return found->second;
}

std::int64_t FieldPictures::groupStart(std::int64_t rank) const
{
    return m_frames->groupStart(rank / 2) * 2;
}

std::vector<std::int64_t> FieldPictures::groupStarts() const
{
    std::vector<std::int64_t> starts;
    const auto ofFrames = m_frames->groupStarts();
    for (const auto start : ofFrames) {
        starts.insert(starts.end(), 2, start * 2);
    }
    return starts;
}

} // namespace latemile
