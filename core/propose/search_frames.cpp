// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/search_frames.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace latemile {

namespace {

constexpr double enoughFrames = 125.0; ///< a second
constexpr double thinRate = 39.9;      ///< a second, at least: 120 is a multiple of 40
constexpr Seconds aboutAStride{0.9};
constexpr Seconds betweenNeighbours{1.0 / 60};

double rateOf(const FrameIndex& index)
{
    const auto last = index.size() - 1;
    const double seconds = last > 0 ? index.time({last}).count() : 0.0;
    return seconds > 0 ? static_cast<double>(last) / seconds : 0.0;
}

/// Of how many frames one is looked at.
std::int64_t searchedEvery(const FrameIndex& index)
{
    return std::max<std::int64_t>(1, std::lround(std::floor(rateOf(index) / enoughFrames + 0.5)));
}

std::vector<FrameNumber> everyNth(std::int64_t size, std::int64_t every)
{
    std::vector<FrameNumber> frames;
    for (std::int64_t i = 0; i < size; i += every) {
        frames.push_back({i});
    }
    return frames;
}

} // namespace

std::vector<FrameNumber> framesToSearch(const FrameIndex& index)
{
    return everyNth(index.size(), searchedEvery(index));
}

std::vector<FrameNumber> thinFrames(const FrameIndex& index)
{
    const auto every = searchedEvery(index);
    const double searched = rateOf(index) / static_cast<double>(every);
    const auto nth = std::max<std::int64_t>(1, std::lround(std::floor(searched / thinRate)));
    return everyNth(index.size(), every * nth);
}

std::vector<FrameNumber> firstFrames(const FrameIndex& index, FrameNumber from)
{
    const auto last = index.time({index.size() - 1});
    const auto start =
        std::clamp(index.time(from), Seconds{0}, std::max(last - aboutAStride, Seconds{0}));
    auto frames = thinFrames(index);
    std::erase_if(frames, [&](FrameNumber frame) {
        return index.time(frame) < start || index.time(frame) > start + aboutAStride;
    });
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
