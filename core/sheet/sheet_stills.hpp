// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/plane.hpp"
#include "core/sheet/sheet_content.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// A clip that is shown, with its plane and the step that stands for it.
struct Shown {
    const SheetClip& clip;
    Plane plane;
    Step step;
};

/// The foot nearest the camera in a side view.
[[nodiscard]] Foot nearFootOf(View view);
/// What a measure reads at one step; null where it has no value there.
[[nodiscard]] const Reading* readingAt(const Readings& readings, const Measure& measure,
                                       StepNumber step);

/// `chosen` where it can be shown, else the typical step of `foot`. Keeps a reference to `clip`.
Outcome<Shown> shownOf(const SheetClip& clip, Foot foot, const std::vector<std::string>& measures,
                       std::optional<StepNumber> chosen, const std::vector<Instant>& instants);

/// Fresh and fatigued at each of `instants`, cropped alike, with the measures of `rows` drawn
/// where they are read.
[[nodiscard]] std::vector<Still> stillsOf(const Shown& fresh, const Shown& fatigued,
                                          const std::vector<ComparisonRow>& rows,
                                          const std::vector<Instant>& instants,
                                          const OwnMeasures& own);

} // namespace latemile
