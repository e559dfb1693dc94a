// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/figure_flow.hpp"

#include <map>
#include <vector>

namespace latemile {

/// A place that is known on a frame without having been followed there: placed by the coach, or
/// carried straight from a placed mark a whole number of strides away.
struct Seed {
    cv::Point2d at;          ///< reduced pixels
    double variance{};       ///< per axis, of following alone: 0 for a placed mark
    std::int64_t origin{-1}; ///< the frame of the placed mark it hangs on
    bool isPlaced{};
    double clickVariance{}; ///< per axis, of that mark
};
/// By frame, of one landmark.
using Seeds = std::map<std::int64_t, Seed>;
using FigureSeeds = std::array<Seeds, landmarkCount>;

/// A landmark on one frame of its path.
struct PathPoint {
    cv::Point2d at;          ///< reduced pixels
    double variance{};       ///< per axis, of following alone
    std::int64_t origin{-1}; ///< frame of the placed mark that decides most
    /// From before and from behind two places were found that do not agree, or the bone to it is 15
    /// % off its length (doubtBrokenBones).
    bool isDoubtful{};
    bool isBridged{};       ///< not seen: interpolated over a short gap
    double clickVariance{}; ///< per axis, of the placed marks it hangs on, by their shares
};
/// One a frame of the stretch, in order; empty where the landmark was not followed to.
using FollowedPath = std::vector<std::optional<PathPoint>>;
using FigurePaths = std::array<FollowedPath, landmarkCount>;

/// How fast each landmark's place gets uncertain while it is followed: variance per axis =
/// rate² · (seconds of drift since the seed)^1.5, a second counting for more where the points
/// around agree less (Way::drifted). The power lies between a random walk (1) and a steady drift
/// (2) and is a choice of this project, like the rates to begin with (centimetres after one second;
/// fitted on modelled runners).
[[nodiscard]] double usualDriftCm(Landmark landmark);

struct FollowedFigure;

/// Frames from one to another, counted from the stretch's first.
struct FrameSpan {
    std::int64_t first{};
    std::int64_t last{};
};

/// Follows one side's landmarks through the stretch, or a span of it, from all seeds there, once
/// forwards and once backwards, handing a figure on every 25 ms, and joins both ways by their
/// errors. `times` one a frame of `pictures`. `goOn` as in RunnerPictures::read.
[[nodiscard]] std::optional<FollowedFigure>
followFigure(const RunnerPictures& pictures, const std::vector<double>& times,
             const FigureSeeds& seeds, const FrameSpan& span,
             const std::function<bool(double)>& goOn = {});

} // namespace latemile
