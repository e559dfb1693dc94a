// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "core/scene/plane.hpp"

#include <array>
#include <vector>

namespace latemile {

/// The marks of a clip by landmark and frame, each with its place in the plane: what formulas read,
/// thousands of times, when errors are propagated.
class MarkTracks {
public:
    struct Point {
        Mark mark;
        PlanePoint plane;
        double sePx{}; ///< standard error per axis, stated or by default
    };

    MarkTracks(const Marking& marking, const Plane& plane, std::int64_t frames);

    /// Null where the landmark is not marked on the frame, or the frame does not exist.
    [[nodiscard]] const Point* find(const MarkKey& key) const;
    /// Frames on which a landmark is marked, ascending.
    [[nodiscard]] const std::vector<FrameNumber>& framesOf(BodySide side, Landmark landmark) const;

private:
    struct Track {
        std::vector<Point> points; ///< in order of frame
        std::vector<FrameNumber> frames;
        std::vector<std::int32_t>
            byFrame; ///< index into points, -1 where there is none; empty: no marks at all
    };
    [[nodiscard]] const Track& track(BodySide side, Landmark landmark) const;

    std::array<Track, 4 * landmarkCount> m_tracks;
};

/// Standard error of a mark per axis in pixels: as stated, else the landmark's default in
/// centimetres (at least half a pixel), 1.5 times as much where it was followed, 3 cm where it was
/// proposed.
[[nodiscard]] double markError(const Mark& mark, Landmark landmark, double cmPerPixel);

} // namespace latemile
