// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/scene/scene.hpp"

namespace latemile {

/// In what a coach knows how much a camera sees.
enum class FieldBy {
    EquivalentFocal, ///< mm, as phones and cameras state it for a full frame of 36 mm x 24 mm
    Degrees,         ///< across the picture
    WidthAtRunner    ///< cm seen across the picture at the runner: measured, so the surest
};

/// A camera set up for filming a runner, before the first frame.
struct CameraSetUp {
    double distanceCm{400.0}; ///< from the lens to the runner's plane
    FieldBy fieldBy{FieldBy::EquivalentFocal};
    double field{26.0}; ///< in the unit of `fieldBy`
    int width{1920};    ///< of the upright picture, pixels
    int height{1080};
    double captureRate{240.0}; ///< frames per real second
    double exposure{0.001};    ///< s: the shutter
    double speed{3.0};         ///< m/s
    bool onBelt{true};         ///< else the runner passes the camera over ground
    double poleCm{100.0};      ///< the known length that will stand in the runner's plane
    double statureCm{170.0};
    bool operator==(const CameraSetUp&) const = default;
};

/// What that camera will give; lengths in the runner's plane.
struct PictureGeometry {
    double focalPx{};
    double acrossDegrees{};
    double cmPerPixel{};
    double widthCm{};
    double heightCm{};
    double frameMs{};            ///< from frame to frame
    double standingFootBlurCm{}; ///< a foot on the belt; 0 over ground
    double swingingFootBlurCm{}; ///< at its fastest
    double trunkBlurCm{};
    double nearerPercent{}; ///< how much too long a part 10 cm nearer than the pole reads
};

/// Refuses what no camera or runner can be, with the field and what to type.
///   field   a pinhole camera: focal length in px = width / (2 tan(across / 2)); the equivalent
///           focal length goes by the diagonal, sqrt(36^2 + 24^2) = 43.27 mm (CIPA DCG-001)
///   blur    speed times shutter. A foot on the belt moves with the belt; a swinging foot at up to
///           twice the belt speed (three times over ground), the trunk up and down at up to 0.7
///           m/s: a bounce of 8 cm at 2.8 steps/s, pi 2.8 0.08 (choices of this project; the model
///           runner's heel moves at 2.0 times, its hip at 0.70 m/s)
///   nearer  a length z nearer at distance D reads D / (D - z) of itself
Outcome<PictureGeometry> pictureGeometry(const CameraSetUp& setUp);

/// The scene such a camera gives once the pole, upright in the runner's plane, is drawn as scale
/// line and as plumb line.
[[nodiscard]] Scene sceneOf(const CameraSetUp& setUp, const PictureGeometry& geometry);

} // namespace latemile
