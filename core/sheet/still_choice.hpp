// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"
#include "core/measures/asked_landmarks.hpp"
#include "core/measures/readings.hpp"
#include "core/sheet/still.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// True when the step can be shown: hip and at least two more near landmarks are marked at each of
/// `instants`.
[[nodiscard]] bool canBeShown(const Step& step, const Marking& marking, const FrameIndex& index,
                              const std::vector<Instant>& instants);
/// The steps of a foot that can be shown, in order.
[[nodiscard]] std::vector<StepNumber> showableSteps(const std::vector<Step>& steps, Foot foot,
                                                    const Marking& marking, const FrameIndex& index,
                                                    const std::vector<Instant>& instants);

/// The step that stands for the clip on a sheet: of `foot`, showable, and in `measures` together
/// nearest to the median of the clip's steps of that foot, each measure in its own spread; a
/// measure it lacks counts as one spread off. Steps whose readings of these measures are all
/// confirmed go before others (no measures: those a session starts with); of two equally near the
/// earlier. Nothing where no step can be shown.
[[nodiscard]] std::optional<Step>
typicalStep(const Readings& readings, const Marking& marking, const FrameIndex& index, Foot foot,
            const std::vector<std::string>& measures,
            const std::vector<Instant>& instants = defaultStillInstants());

/// At how many instants of a clip landmarks that are asked for are marked, and at how many of these
/// the coach placed or confirmed them all as well as the step's contact and toe-off.
struct InstantCount {
    int confirmed{};
    int marked{};
};
[[nodiscard]] InstantCount countInstants(const std::vector<Step>& steps, const Marking& marking,
                                         const FrameIndex& index, Foot nearFoot,
                                         const AskedLandmarks& asked);

} // namespace latemile
