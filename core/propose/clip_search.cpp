// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/clip_search.hpp"

#include <opencv2/core/utility.hpp>

#include <algorithm>
#include <atomic>
#include <cassert>
#include <cmath>
#include <mutex>
#include <set>
#include <stop_token>
#include <thread>

namespace latemile {

namespace {

constexpr double enoughFrames = 125.0; ///< a second
constexpr Seconds betweenNeighbours{1.0 / 60};
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
void lookInParallel(SharedWork& work, PoseNetwork& network, const std::filesystem::path& resources,
                    const CropPath& path, std::size_t workers)
{
    const auto count = static_cast<int>(workers);
    cv::parallel_for_(
        cv::Range(0, count),
        [&](const cv::Range& range) {
            for (int worker = range.start; worker < range.end; ++worker) {
                if (worker == 0) {
                    lookAtAll(work, network, path);
                    continue;
                }
                auto own = PoseNetwork::open(resources);
                if (!own) {
                    work.fail(own.error());
                    return;
                }
                lookAtAll(work, *own, path);
            }
        },
        count);
}

/// Where the runner is through the whole clip, so that later searches need not look again; or why a
/// box is needed. Of the whole work `share` is this part's.
Outcome<SearchedClip> pathOf(const ClipSearch& search, ClipReader& clip, PoseNetwork& network,
                             const SearchGoesOn& goesOn, double share)
{
    std::vector<FrameNumber> frames;
    for (std::int64_t number = 0; number < clip.index().size(); ++number) {
        frames.push_back({number});
    }
    std::stop_source stop;
    const SearchWatch watch{
        .stop = stop.get_token(), .tell = [&](std::size_t done, std::size_t all) {
            const auto part = static_cast<double>(done) / static_cast<double>(all);
            if (goesOn && !goesOn(share * part)) {
                stop.request_stop();
            }
        }};
    const auto read = [&clip](FrameNumber frame) { return clip.frame(frame); };
    auto path = cropPathThrough(read, clip.index(), network, frames, search.box, watch);
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

} // namespace

Outcome<SearchedClip> searchClipFile(const ClipSearch& search, const SearchGoesOn& goesOn)
{
    assert(!search.frames.empty());
    ASSIGN_OR_RETURN(auto network, PoseNetwork::open(search.resources));
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(search.clip, search.options));
    RETURN_IF_ERROR(needWholeStep(clip.index()));
    double before = 0.0;
    SearchedClip result{.found = {}, .path = search.path, .boxWanted = {}};
    if (!result.path) {
        const auto keys = (clip.index().time({clip.index().size() - 1}) / keyInterval) + 8;
        before = keys / (keys + static_cast<double>(search.frames.size()));
        ASSIGN_OR_RETURN(result, pathOf(search, clip, network, goesOn, before));
        if (!result.path) {
            return result;
        }
    }
    SharedWork work(search, clip, goesOn, before);
    lookInParallel(work, network, search.resources, *result.path, workersFor(search.frames.size()));
    ASSIGN_OR_RETURN(result.found, work.result());
    return result;
}

std::vector<FrameNumber> framesToSearch(const FrameIndex& index)
{
    const auto last = index.size() - 1;
    const double seconds = last > 0 ? index.time({last}).count() : 0.0;
    const double rate = seconds > 0 ? static_cast<double>(last) / seconds : 0.0;
    const auto every =
        std::max<std::int64_t>(1, std::lround(std::floor(rate / enoughFrames + 0.5)));
    std::vector<FrameNumber> frames;
    for (std::int64_t i = 0; i <= last; i += every) {
        frames.push_back({i});
    }
    return frames;
}

std::vector<FrameNumber> withNeighbours(const std::vector<FrameNumber>& wanted,
                                        const FrameIndex& index)
{
    std::set<FrameNumber> frames;
    for (const auto frame : wanted) {
        for (int aside = -2; aside <= 2; ++aside) {
            frames.insert(
                aside == 0 ? frame : index.nearest(index.time(frame) + aside * betweenNeighbours));
        }
    }
    return {frames.begin(), frames.end()};
}

} // namespace latemile
