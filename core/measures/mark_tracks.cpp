// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/mark_tracks.hpp"

#include <algorithm>

namespace latemile {

namespace {

std::size_t trackNumber(BodySide side, Landmark landmark)
{
    return static_cast<std::size_t>(side) * landmarkCount + static_cast<std::size_t>(landmark);
}

} // namespace

MarkTracks::MarkTracks(const Marking& marking, const Plane& plane, std::int64_t frames,
                       const ClickErrors& clicks, std::optional<double> evenCmPerPixel)
{
    int paths = 0;
    for (const auto& [key, mark] : marking.marks) {
        if (key.frame.value < 0 || key.frame.value >= frames) {
            continue;
        }
        auto& track = m_tracks[trackNumber(key.side, key.landmark)];
        if (track.byFrame.empty()) {
            track.byFrame.assign(static_cast<std::size_t>(frames), -1);
            track.points.reserve(track.byFrame.size());
            track.frames.reserve(track.byFrame.size());
        }
        track.byFrame[static_cast<std::size_t>(key.frame.value)] =
            static_cast<std::int32_t>(track.points.size());
        int path = -1;
        if (mark.origin == Origin::Followed) {
            const bool goesOn = !track.frames.empty() && track.points.back().path >= 0 &&
                                track.frames.back().value + 1 == key.frame.value;
            path = goesOn ? track.points.back().path : paths++;
        }
        track.frames.push_back(key.frame);
        const auto cmPerPixel = [&] {
            return evenCmPerPixel ? *evenCmPerPixel : plane.cmPerPixel(mark.at);
        };
        const double se =
            mark.sePx ? *mark.sePx : markError(mark, key.landmark, cmPerPixel(), clicks);
        track.points.push_back({mark, plane.toPlane(mark.at), se, path});
    }
}

const MarkTracks::Track& MarkTracks::track(BodySide side, Landmark landmark) const
{
    return m_tracks[trackNumber(side, landmark)];
}

const MarkTracks::Point* MarkTracks::find(const MarkKey& key) const
{
    const auto& of = track(key.side, key.landmark);
    if (key.frame.value < 0 || key.frame.value >= static_cast<std::int64_t>(of.byFrame.size())) {
        return nullptr;
    }
    const auto place = of.byFrame[static_cast<std::size_t>(key.frame.value)];
    return place < 0 ? nullptr : &of.points[static_cast<std::size_t>(place)];
}

const std::vector<FrameNumber>& MarkTracks::framesOf(BodySide side, Landmark landmark) const
{
    return track(side, landmark).frames;
}

std::span<const FrameNumber> MarkTracks::framesFrom(FrameNumber first, BodySide side,
                                                    Landmark landmark) const
{
    const auto& frames = track(side, landmark).frames;
    return {std::ranges::lower_bound(frames, first), frames.end()};
}

double varianceOfMean(std::vector<int> paths)
{
    std::ranges::sort(paths);
    const auto n = static_cast<double>(paths.size());
    double sum = n;
    for (auto from = paths.begin(); from != paths.end();) {
        const auto to = std::find_if(from, paths.end(), [&](int path) { return path != *from; });
        const auto together = static_cast<double>(to - from);
        sum += *from < 0 ? 0.0 : pathCorrelation * together * (together - 1.0);
        from = to;
    }
    return sum / (n * n);
}

double markError(const Mark& mark, Landmark landmark, double cmPerPixel, const ClickErrors& clicks)
{
    if (mark.sePx) {
        return *mark.sePx;
    }
    constexpr double proposedCm = 3.0;
    constexpr double leastPx = 0.5;
    if (mark.origin == Origin::Proposed) {
        return proposedCm / cmPerPixel;
    }
    const double placed = std::max(clicks.of(landmark) / cmPerPixel, leastPx);
    return mark.origin == Origin::Followed ? followedFactor * placed : placed;
}

} // namespace latemile
