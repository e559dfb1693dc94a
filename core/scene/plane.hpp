// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/scene/scene.hpp"

#include <array>

namespace latemile {

/// Where a scene's centimetres come from, in falling order of trust.
enum class ScaleFrom { Corners, Line, Belt, LegLength, Nothing };

/// A small disturbance of a scene, for the propagation of its errors.
struct SceneShift {
    double relativeScale{}; ///< 0.01: every length reads 1 % longer
    double rollRadians{};   ///< the plumb line turned anticlockwise as seen in the picture
};

/// The map between the upright picture and the runner's plane: the one place where pixels become
/// centimetres. A value; any thread. x forward, y up in side view; x to the athlete's own right in
/// rear and front view.
class Plane {
public:
    /// A scale line of no length, an upright scale line without a plumb line, corners on one line,
    /// and a view and travel direction that contradict each other (a mirrored clip) are errors.
    static Outcome<Plane> from(const Scene& scene);

    [[nodiscard]] PlanePoint toPlane(PixelPoint point) const { return toPlane(point, {}); }
    [[nodiscard]] PlanePoint toPlane(PixelPoint point, const SceneShift& shift) const;
    [[nodiscard]] PixelPoint toPixel(PlanePoint point) const;
    /// Where a point of the plane comes to lie when the scene is disturbed.
    [[nodiscard]] PlanePoint shifted(PlanePoint point, const SceneShift& shift) const;
    /// +1 where x runs to the picture's right, -1 where it runs to its left.
    [[nodiscard]] double forwardSign() const { return m_forward; }

    [[nodiscard]] ScaleFrom scaleFrom() const { return m_scaleFrom; }
    /// True when distances may be given in centimetres. Without a scale one pixel counts as one
    /// centimetre, which leaves angles right.
    [[nodiscard]] bool hasScale() const { return m_scaleFrom != ScaleFrom::Nothing; }
    /// Local size of a pixel, cm (geometric mean over directions).
    [[nodiscard]] double cmPerPixel(PixelPoint at) const;
    /// sigma_k / k: tape and click error of what the scale was drawn from.
    [[nodiscard]] double relativeScaleError() const { return m_relativeScaleError; }
    /// Standard error of the plumb direction, radians.
    [[nodiscard]] double plumbError() const { return m_plumbError; }

    /// The same plane with a scale taken from elsewhere (leg length; the belt).
    [[nodiscard]] Plane withScale(double cmPerPixel, double relativeError, ScaleFrom from) const;

private:
    Plane() = default;
    [[nodiscard]] PixelPoint undistorted(PixelPoint point) const;
    [[nodiscard]] PixelPoint distorted(PixelPoint point) const;

    std::optional<Lens> m_lens;
    std::array<double, 9>
        m_toCm{}; ///< homography, row by row: lens-free pixel -> cm, x right, y up
    std::array<double, 9> m_toPixel{}; ///< its inverse
    double m_forward{1.0};             ///< +1 where the picture's right is x, -1 where its left is
    ScaleFrom m_scaleFrom{ScaleFrom::Nothing};
    double m_relativeScaleError{};
    double m_plumbError{};
};

} // namespace latemile
