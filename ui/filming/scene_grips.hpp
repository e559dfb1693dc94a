// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/scene.hpp"

#include <QString>

#include <vector>

namespace latemile::ui {

enum class SceneLine { Scale, Plumb, Ground, Corners };

/// A point of a scene's lines that can be taken hold of on the picture.
struct SceneGrip {
    SceneLine line{};
    std::size_t index{}; ///< which scale line, which corner
    bool second{};       ///< a scale line's b, the plumb line's bottom
    bool operator==(const SceneGrip&) const = default;
};

/// All of them, scale lines first; the ground line has one, at the left of the picture.
[[nodiscard]] std::vector<SceneGrip> gripsOf(const Scene& scene);
[[nodiscard]] PixelPoint placeOf(const Scene& scene, const SceneGrip& grip);
/// The scene with that point elsewhere. A plumb line keeps its top above its bottom.
[[nodiscard]] Scene withGripAt(Scene scene, const SceneGrip& grip, PixelPoint at);

/// A new line from one point of the picture to another; `cm` is a scale line's length or the two
/// sides of the corners' rectangle.
struct SideLengths {
    double width{200.0};
    double height{100.0};
};
[[nodiscard]] Scene withNewLine(Scene scene, SceneLine line, PixelPoint from, PixelPoint to,
                                const SideLengths& cm);

/// "scale line", "plumb line", "ground line", "corners".
[[nodiscard]] QString nameOf(SceneLine line);

} // namespace latemile::ui
