// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"
#include "core/sheet/still.hpp"

#include <optional>

namespace latemile::ui {

/// The figure of the worked example (DEVELOPERS.md), on which help draws every measure: a clip of
/// one right step, marked at contact, mid-stance and toe-off.
[[nodiscard]] MarkedClip exampleClip();

/// The instant of the example at which a measure is shown: its own, else the one its window ends or
/// the middle of stance.
[[nodiscard]] Instant exampleInstant(const Measure& measure);

/// One frame of the example with the measure drawn on it and its value there; the lines are
/// missing where the measure is not drawn with lines.
[[nodiscard]] Still exampleStill(const Measure& measure);

} // namespace latemile::ui
