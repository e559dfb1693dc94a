// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/scene.hpp"
#include "core/scene/still_background.hpp"

#include <optional>
#include <string>

namespace latemile {

/// How a second picture lies to a first of the same background: turned about the picture's middle,
/// enlarged and shifted.
struct CameraMove {
    double zoom{1.0};     ///< 1.01: things are 1 % larger in the second
    double rollDegrees{}; ///< clockwise: the second shows the room turned so
    PixelPoint shift;     ///< of what was at the picture's middle, px
    PixelPoint middle;    ///< of the picture
    double residualPx{};  ///< median distance of the matched points after the fit
    int agreeing{};       ///< matched points that fit
    int matched{};        ///< all matched points
    [[nodiscard]] double shiftPx() const;
    /// Where a place of the first picture is in the second.
    [[nodiscard]] PixelPoint carried(PixelPoint first) const;
};

/// From SIFT features of what stands still in both, a similarity by RANSAC. Nothing where the
/// pictures differ in size, where fewer than 20 points or 30 % of them fit one movement, or where
/// those lie in a corner of the picture (under a quarter of its width or height): then the two
/// show no common background, or a camera that swings.
/// Of a camera left standing to 0.1 px, 0.02 degrees and 0.05 %, of one turned or zoomed where it
/// stands to 0.3 px, 0.03 degrees and 0.1 %. Of one set elsewhere near and far things move
/// differently, and size and roll are those of the background: with the tripod 4 cm nearer and 3 cm
/// aside within 0.5 % and 0.1 degrees of the runner's, 13 cm farther within 1 % and 0.2 degrees.
[[nodiscard]] std::optional<CameraMove> cameraMoveBetween(const StillBackground& first,
                                                          const StillBackground& second);

/// Whether the lines drawn on one clip may serve another.
struct CameraVerdict {
    enum class Stands { Same, Doubtful, Moved, CannotTell };
    Stands stands{Stands::CannotTell};
    std::optional<CameraMove> move;
    std::string sentence; ///< for the coach, with the numbers
};

/// Limits, choices of this project, each no larger than what the lines are wrong by themselves:
///   same      zoom within 0.5 % (a pole of 1 m is known to 0.5 cm); roll within 0.25 degrees (1 px
///             at the ends of a plumb line of 300 px; 0.4 cm from foot to hip, less than an ankle
///             is marked to); shift within 0.4 % of the picture's width (about 1.5 cm of the ground
///             line, nothing of scale or upright)
///   doubtful  up to 2 %, 1 degree, 5 %: lines may be carried along, but a camera that was turned
///             or set elsewhere sees runner and wall move differently
///   moved     beyond
/// `cmPerPixel` of the first clip's scene, for the shift in centimetres.
[[nodiscard]] CameraVerdict judgeCamera(const std::optional<CameraMove>& move, int pictureWidth,
                                        std::optional<double> cmPerPixel);

/// A scene's lines set to where `move` has carried them: scale lines, plumb line, ground line and
/// corners. Camera side, speeds and lens stay.
[[nodiscard]] Scene carriedBy(Scene scene, const CameraMove& move);

} // namespace latemile
