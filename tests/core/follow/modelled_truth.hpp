// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/scene/scene.hpp"
#include "sample_clips/maker/render_clip.hpp"

#include <vector>

namespace latemile::tests {

/// The times of a modelled runner's frames.
inline FrameIndex indexOf(const maker::Truth& truth)
{
    std::vector<Seconds> times;
    for (const auto& frame : truth.frames) {
        times.emplace_back(frame.seconds);
    }
    return FrameIndex(times);
}

/// Its scene, as a coach would draw it without an error.
inline Scene sceneOf(const maker::Truth& truth)
{
    Scene scene;
    scene.scale = ScaleLine{truth.scaleBottom, truth.scaleTop, truth.scaleLengthCm};
    scene.plumb = PlumbLine{truth.scaleTop, truth.scaleBottom};
    if (!truth.recipe.runner.overground) {
        scene.beltSpeed = truth.recipe.runner.speed;
    }
    return scene;
}

} // namespace latemile::tests
