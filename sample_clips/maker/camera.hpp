// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"
#include "sample_clips/maker/geometry.hpp"
#include "sample_clips/maker/recipe.hpp"

namespace latemile::maker {

/// A still pinhole camera with a lens, level but for its roll. Its picture plane is parallel to the
/// plane of running (rear view: square to it), so that in the plane z = 0 one scale holds
/// everywhere when roll and lens are left out.
class Camera {
public:
    explicit Camera(const CameraRecipe& recipe);

    /// Where a place in the room appears; needs a place in front of the camera.
    [[nodiscard]] PixelPoint project(Vec3 place) const;
    /// The direction in the room, not of unit length, in which a pixel looks: one unit of depth.
    [[nodiscard]] Vec3 ray(PixelPoint pixel) const;
    [[nodiscard]] Vec3 position() const { return m_position; }
    /// Distance along the line of sight, cm.
    [[nodiscard]] double depth(Vec3 place) const;
    /// Before the lens bends it.
    [[nodiscard]] double pixelsPerCm(Vec3 place) const { return m_focal / depth(place); }
    [[nodiscard]] double focal() const { return m_focal; } ///< pixels
    [[nodiscard]] PixelPoint centre() const { return m_centre; }
    [[nodiscard]] const CameraRecipe& recipe() const { return m_recipe; }

private:
    [[nodiscard]] Vec2 bent(Vec2 straight) const;
    [[nodiscard]] Vec2 straightened(Vec2 bent) const;

    CameraRecipe m_recipe;
    double m_focal{};
    PixelPoint m_centre;
    Vec3 m_position;
    Vec3 m_right;
    Vec3 m_ahead;
};

/// Whether this foot's side of the body is the one towards a side-view camera.
[[nodiscard]] constexpr bool isNear(Foot side, View view)
{
    return (side == Foot::Left) == (view == View::LeftSide);
}

} // namespace latemile::maker
