// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/camera.hpp"

#include <algorithm>

namespace latemile::maker {

Camera::Camera(const CameraRecipe& recipe)
    : m_recipe(recipe), m_centre{0.5 * recipe.width, 0.5 * recipe.height}
{
    // By default the picture is as wide as it is far away, unless it is taller than 16:9.
    const double wide = std::min<double>(recipe.width, recipe.height * 16.0 / 9.0);
    m_focal = recipe.focal.value_or(wide * recipe.distance / 400.0);
    switch (recipe.view) {
    case View::LeftSide:
        m_position = {0.0, recipe.lensHeight, -recipe.distance};
        m_right = {-1.0, 0.0, 0.0};
        m_ahead = {0.0, 0.0, 1.0};
        break;
    case View::RightSide:
        m_position = {0.0, recipe.lensHeight, recipe.distance};
        m_right = {1.0, 0.0, 0.0};
        m_ahead = {0.0, 0.0, -1.0};
        break;
    case View::Rear:
        m_position = {-recipe.distance, recipe.lensHeight, 0.0};
        m_right = {0.0, 0.0, 1.0};
        m_ahead = {1.0, 0.0, 0.0};
        break;
    }
}

double Camera::depth(Vec3 place) const
{
    return dot(place - m_position, m_ahead);
}

// The model of OpenCV's calib3d documentation: x right, y down, in units of depth.
Vec2 Camera::bent(Vec2 p) const
{
    const Lens& lens = m_recipe.lens;
    const double r2 = p.x * p.x + p.y * p.y;
    const double radial = 1.0 + r2 * (lens.k1 + r2 * (lens.k2 + r2 * lens.k3));
    return {p.x * radial + 2 * lens.p1 * p.x * p.y + lens.p2 * (r2 + 2 * p.x * p.x),
            p.y * radial + lens.p1 * (r2 + 2 * p.y * p.y) + 2 * lens.p2 * p.x * p.y};
}

Vec2 Camera::straightened(Vec2 wanted) const
{
    if (m_recipe.lens == Lens{}) {
        return wanted;
    }
    Vec2 guess = wanted;
    for (int i = 0; i < 12; ++i) {
        guess = guess + (wanted - bent(guess));
    }
    return guess;
}

PixelPoint Camera::project(Vec3 place) const
{
    const Vec3 way = place - m_position;
    const double far = dot(way, m_ahead);
    const Vec2 level{dot(way, m_right) / far, -way.y / far};
    const Vec2 seen = bent(turned(level, radians(m_recipe.roll)));
    return {m_centre.u + m_focal * seen.x, m_centre.v + m_focal * seen.y};
}

Vec3 Camera::ray(PixelPoint pixel) const
{
    const Vec2 seen{(pixel.u - m_centre.u) / m_focal, (pixel.v - m_centre.v) / m_focal};
    const Vec2 level = turned(straightened(seen), -radians(m_recipe.roll));
    return m_ahead + m_right * level.x + Vec3{0.0, -level.y, 0.0};
}

} // namespace latemile::maker
