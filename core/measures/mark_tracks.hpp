// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/click_errors.hpp"
#include "core/marks/marking.hpp"
#include "core/scene/plane.hpp"

#include <array>
#include <optional>
#include <span>
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
        int path{-1};  ///< which path a followed mark lies on; -1: on none
    };

    /// `evenCmPerPixel`: where a pixel is as large everywhere.
    MarkTracks(const Marking& marking, const Plane& plane, std::int64_t frames,
               const ClickErrors& clicks = {}, std::optional<double> evenCmPerPixel = std::nullopt);

    /// Null where the landmark is not marked on the frame, or the frame does not exist.
    [[nodiscard]] const Point* find(const MarkKey& key) const;
    /// Frames on which a landmark is marked, ascending.
    [[nodiscard]] const std::vector<FrameNumber>& framesOf(BodySide side, Landmark landmark) const;
    /// Those of them from `first` on.
    [[nodiscard]] std::span<const FrameNumber> framesFrom(FrameNumber first, BodySide side,
                                                          Landmark landmark) const;

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

/// A followed mark's error is that of the mark its path began with (variance 1) and that of
/// following (1.25), which is where the factor 1.5 on the standard error of a followed mark comes
/// from (variance 2.25). All marks of one landmark on one path share the first: this is the
/// correlation of two of them (a choice of this project). A path goes on from frame to frame; a
/// placed mark or a hole ends it. Placed and proposed marks are independent.
inline constexpr double followedFactor = 1.5;
inline constexpr double pathCorrelation = 1.0 / (followedFactor * followedFactor);

/// Variance of the mean of equally good marks as a share of one mark's variance: 1/n where they are
/// independent, more where several lie on one path. `paths`: the path of each, -1 for none.
[[nodiscard]] double varianceOfMean(std::vector<int> paths);

/// Standard error of a mark per axis in pixels: as stated, else the coach's own or the landmark's
/// default in centimetres (at least half a pixel), 1.5 times as much where it was followed, 3 cm
/// where it was proposed.
[[nodiscard]] double markError(const Mark& mark, Landmark landmark, double cmPerPixel,
                               const ClickErrors& clicks = {});

} // namespace latemile
