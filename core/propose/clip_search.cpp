// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/clip_search.hpp"

#include <opencv2/core/utility.hpp>

#include <algorithm>
#include <atomic>
#include <cassert>
#include <mutex>
#include <stop_token>
#include <thread>

namespace latemile {

namespace {

constexpr std::size_t mostWorkers = 8;

std::size_t workersFor(std::size_t frames)
{
    const std::size_t cores = std::thread::hardware_concurrency();
    return std::min({std::max<std::size_t>(cores, 2) - 1, mostWorkers, frames});
}

/// Frames handed out one by one in the order wanted, and what was found on them. One reader serves
/// all workers: decoding a frame takes a twentieth of looking at it.
class SharedWork {
public:
    SharedWork(const ClipSearch& search, ClipReader& clip, const SearchGoesOn& goesOn,
               double shareBefore)
        : m_search(search), m_clip(clip), m_goesOn(goesOn), m_shareBefore(shareBefore)
    {
    }

    std::optional<Frame> next()
    {
        const std::scoped_lock lock(m_mutex);
        if (m_ended || m_next == m_search.frames.size()) {
            return std::nullopt;
        }
        auto frame = m_clip.frame(m_search.frames[m_next++]);
        if (!frame) {
            end(frame.error());
            return std::nullopt;
        }
        return std::move(*frame);
    }

    void put(const Frame& frame, Outcome<BodyPoints> body)
    {
        const std::scoped_lock lock(m_mutex);
        if (!body) {
            end(body.error());
            return;
        }
        m_found.push_back({frame.number, frame.time, std::move(*body)});
        const double share =
            static_cast<double>(m_found.size()) / static_cast<double>(m_search.frames.size());
        if (m_goesOn && !m_goesOn(m_shareBefore + (1.0 - m_shareBefore) * share)) {
            m_ended = true;
        }
    }

    void fail(const Error& error)
    {
        const std::scoped_lock lock(m_mutex);
        end(error);
    }

    /// After the workers have ended.
    Outcome<std::vector<FoundBody>> result()
    {
        if (m_fault) {
            return tl::unexpected<Error>(*m_fault);
        }
        std::ranges::sort(m_found, {}, &FoundBody::frame);
        return std::move(m_found);
    }

private:
    void end(const Error& error)
    {
        m_fault = m_fault ? m_fault : error;
        m_ended = true;
    }

    const ClipSearch& m_search;
    ClipReader& m_clip;
    const SearchGoesOn& m_goesOn;
    const double m_shareBefore;
    std::mutex m_mutex; ///< guards all below, and the reader
    std::size_t m_next{};
    bool m_ended{};
    std::optional<Error> m_fault;
    std::vector<FoundBody> m_found;
};

void lookAtAll(SharedWork& work, PoseNetwork& network, const CropPath& path)
{
    while (const auto frame = work.next()) {
        work.put(*frame, network.find(frame->picture, path.at(frame->time)));
    }
}

/// The first worker takes the network that found the runner. All of them run inside one parallel
/// loop of OpenCV's, within which the network's own loops stay on their worker's core.
void lookInParallel(SharedWork& work, PoseNetworks& networks, const CropPath& path,
                    std::size_t workers)
{
    const auto count = static_cast<int>(workers);
    cv::parallel_for_(
        cv::Range(0, count),
        [&](const cv::Range& range) {
            for (int worker = range.start; worker < range.end; ++worker) {
                const auto network = networks.of(static_cast<std::size_t>(worker));
                if (!network) {
                    work.fail(network.error());
                    return;
                }
                lookAtAll(work, **network, path);
            }
        },
        count);
}

/// All frames of the clip from the first to the last of those.
std::vector<FrameNumber> framesAmong(const std::vector<FrameNumber>& wanted)
{
    const auto [first, last] = std::ranges::minmax(wanted);
    std::vector<FrameNumber> frames;
    for (auto frame = first; frame <= last; ++frame.value) {
        frames.push_back(frame);
    }
    return frames;
}

std::vector<FrameNumber> framesOf(const FrameIndex& index)
{
    return framesAmong({{0}, {index.size() - 1}});
}

/// The start of the path through the whole clip, or why a box is needed.
Outcome<SearchedClip> startOf(const ClipSearch& search, ClipReader& clip, PoseNetwork& network)
{
    const auto read = [&clip](FrameNumber frame) { return clip.frame(frame); };
    auto path = runnersStart(read, clip.index(), network, framesOf(clip.index()), search.box);
    SearchedClip result;
    if (path) {
        result.path = std::move(*path);
        return result;
    }
    const auto kind = path.error().kind;
    if (kind != Error::Kind::NotFound && kind != Error::Kind::Inconsistent) {
        return tl::unexpected<Error>(path.error());
    }
    result.boxWanted = path.error().sentence;
    return result;
}

/// The path carried on so far that it covers the frames wanted; of the whole work `share` is this
/// part's. None: it was told to end.
Outcome<CropPath> coveringPath(const ClipSearch& search, ClipReader& clip, PoseNetwork& network,
                               const CropPath& path, const SearchGoesOn& goesOn, double share)
{
    std::stop_source stop;
    const SearchWatch watch{
        .stop = stop.get_token(), .tell = [&](std::size_t done, std::size_t all) {
            const auto part = static_cast<double>(done) / static_cast<double>(all);
            if (goesOn && !goesOn(share * part)) {
                stop.request_stop();
            }
        }};
    const auto read = [&clip](FrameNumber frame) { return clip.frame(frame); };
    // From where she is known on, so that nobody is looked for far from there.
    auto wanted = search.frames;
    wanted.push_back(clip.index().nearest(path.known().front().time));
    wanted.push_back(clip.index().nearest(path.known().back().time));
    return pathOnward(read, clip.index(), network, framesAmong(wanted), path, watch);
}

/// Of the whole work, what finding the runner's way is before the frames are looked at.
double shareOfPath(const FrameIndex& index, const ClipSearch& search)
{
    const auto [first, last] = std::ranges::minmax(search.frames);
    double looks = 0.0;
    if (!search.path) {
        constexpr double looksForStart = 8.0;
        looks = looksForStart + (index.time(last) - index.time(first)) / keyInterval;
    } else {
        const auto& known = search.path->known();
        looks = (std::max(index.time(last) - known.back().time, Seconds{0}) +
                 std::max(known.front().time - index.time(first), Seconds{0})) /
                keyInterval;
    }
    return looks / (looks + static_cast<double>(search.frames.size()));
}

} // namespace

Outcome<SearchedClip> searchClipFile(const ClipSearch& search, const SearchGoesOn& goesOn)
{
    assert(!search.frames.empty());
    PoseNetworks own(search.resources);
    auto& networks = search.networks ? *search.networks : own;
    ASSIGN_OR_RETURN(auto* const network, networks.of(0));
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(search.clip, search.options));
    RETURN_IF_ERROR(needWholeStep(clip.index()));
    SearchedClip result{.found = {}, .path = search.path, .boxWanted = {}};
    if (!result.path) {
        ASSIGN_OR_RETURN(result, startOf(search, clip, *network));
        if (!result.path) {
            return result;
        }
    }
    const double before = shareOfPath(clip.index(), search);
    ASSIGN_OR_RETURN(result.path,
                     coveringPath(search, clip, *network, *result.path, goesOn, before));
    SharedWork work(search, clip, goesOn, before);
    lookInParallel(work, networks, *result.path, workersFor(search.frames.size()));
    ASSIGN_OR_RETURN(result.found, work.result());
    return result;
}

} // namespace latemile
