// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/scene/scene.hpp"
#include "sample_clips/maker/camera.hpp"
#include "sample_clips/maker/truth.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace latemile::simulation {

/// A modelled runner on the belt for a minute, with everything that is exactly known of it. Side
/// views run in the one plane z = 0, so that depth, a bound of the set-up and no noise, is left
/// out; from behind it is left out by taking the true values from exact pixels.
struct TrueRun {
    maker::ClipRecipe recipe;
    maker::RunnerModel model;
    maker::Camera camera;
    maker::Truth truth; ///< contacts in order of time, marks 240 times a second
    Scene scene;        ///< drawn without error
    /// By id of the measure: its value at the exact instant, one a contact of the truth; nothing
    /// where the measure is none of that step's.
    std::map<std::string, std::vector<std::optional<double>>> values;
};

/// Where the rear iliac spine's partner in front lies, cm from it; the model has none of its own.
inline constexpr maker::Vec3 asisFromPsis{16.0, -3.0, 0.0};

/// `recipe` tells who runs, the camera and how long; its capture rate is not looked at.
Outcome<TrueRun> trueRun(maker::ClipRecipe recipe);

/// Mean of the values of one foot (of both: none) over the whole run; nothing where there are none.
[[nodiscard]] std::optional<double> meanOf(const TrueRun& run, const std::string& measure,
                                           std::optional<maker::Foot> foot);

/// Values of the contacts [first, last) of the truth together, by the id of the measure: stiffness,
/// and step rate and length of the run of steps. From exact times and the model's own mass and leg
/// alone.
[[nodiscard]] std::map<std::string, double> valuesOfClip(const TrueRun& run, std::size_t first,
                                                         std::size_t last);
inline constexpr double runnersMass = 62.0; ///< kg

} // namespace latemile::simulation
