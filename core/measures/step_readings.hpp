// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/propagation.hpp"
#include "core/measures/readings.hpp"

#include <map>
#include <string>
#include <vector>

namespace latemile {

/// Why no step of this clip can have the measure (view, scale, frame rate); empty where nothing
/// stands against it.
[[nodiscard]] std::string forbiddenBy(const Measure& measure, const PreparedClip& clip);

/// Is this step one of whose foot the measure can be had at all?
[[nodiscard]] bool concerns(const Measure& measure, const Step& step, const PreparedClip& clip);

/// One measure's value at one step alone with all it came from, or the reason why there is none.
[[nodiscard]] Propagated propagatedAt(const PreparedClip& clip, const Measure& measure,
                                      std::size_t step);

/// The same of all steps it concerns, by their places, with what several say better together.
[[nodiscard]] std::map<std::size_t, Propagated> propagatedSteps(const PreparedClip& clip,
                                                                const Measure& measure);

/// Was every mark and event the value came from placed by the coach?
[[nodiscard]] bool isConfirmed(const Propagated& from, const PreparedClip& clip);

/// The readings of one measure: a row a step it concerns, and one of the clip where it has one.
[[nodiscard]] std::vector<Reading> readingsOfMeasure(const PreparedClip& clip,
                                                     const Measure& measure);

/// The first of them that has a value; where none has, the first there is, which says why.
[[nodiscard]] std::optional<Reading> firstReading(const PreparedClip& clip, const Measure& measure);

} // namespace latemile
