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

MarkTracks::MarkTracks(const Marking& marking, const Plane& plane, std::int64_t frames)
{
    for (const auto& [key, mark] : marking.marks) {
        if (key.frame.value < 0 || key.frame.value >= frames) {
            continue;
        }
        auto& track = m_tracks[trackNumber(key.side, key.landmark)];
        if (track.byFrame.empty()) {
            track.byFrame.assign(static_cast<std::size_t>(frames), -1);
        }
        track.byFrame[static_cast<std::size_t>(key.frame.value)] =
            static_cast<std::int32_t>(track.points.size());
        track.frames.push_back(key.frame);
        track.points.push_back({mark, plane.toPlane(mark.at),
                                markError(mark, key.landmark, plane.cmPerPixel(mark.at))});
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

double markError(const Mark& mark, Landmark landmark, double cmPerPixel)
{
    if (mark.sePx) {
        return *mark.sePx;
    }
    constexpr double proposedCm = 3.0;
    constexpr double followedFactor = 1.5;
    constexpr double leastPx = 0.5;
    if (mark.origin == Origin::Proposed) {
        return proposedCm / cmPerPixel;
    }
    const double placed = std::max(defaultClickError(landmark) / cmPerPixel, leastPx);
    return mark.origin == Origin::Followed ? followedFactor * placed : placed;
}

} // namespace latemile
