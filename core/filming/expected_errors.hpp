// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/scene/scene.hpp"

#include <vector>

namespace latemile {

/// What one step's reading of a measure will be uncertain by.
struct ExpectedError {
    const Measure* measure{};
    double se{}; ///< one standard error, in the measure's unit
};

/// The errors of the main measures of a side view, from the head down, then the time on the ground,
/// before anything is marked: a model runner's step is put into the scene, marked once with the
/// default errors, and read by the routine that reads every clip. Measures the scene or the frame
/// rate cannot give are left out; a view from behind or in front, and a scene that fixes no plane,
/// give none. `roughCmPerPixel` serves where the scene has no scale.
[[nodiscard]] std::vector<ExpectedError> expectedErrors(const Scene& scene, double captureRate,
                                                        double roughCmPerPixel = 0.4);

/// Of one measure; nothing where it is not among them.
[[nodiscard]] std::optional<double> errorOf(const std::vector<ExpectedError>& errors,
                                            std::string_view measure);

/// Of one contact time at this frame rate: two events, each uncertain by T/sqrt(12) and by half a
/// frame of judgement, in seconds.
[[nodiscard]] double contactTimeError(double captureRate);

} // namespace latemile
