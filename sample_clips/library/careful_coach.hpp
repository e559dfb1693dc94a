// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "sample_clips/library/sample_truth.hpp"

namespace latemile {

/// The marks and contacts a careful coach would set on a rendered clip: events on frames by the
/// half-frame rule; near-side landmarks at contact, mid-stance and toe-off of every near step, hip,
/// knee and ankle on the frame before contact too; ear, shoulder and hip at the far foot's
/// mid-stance, the far ankle at its contact; the toe twice more in each near stance for the belt
/// check. Rear view: both sides at mid-stance. Every click is off by up to `clickError` pixels each
/// way, evenly spread, and lies on a quarter of a pixel. The same seed gives the same marks on
/// every machine.
[[nodiscard]] Marking markedByCarefulCoach(const SampleTruth& truth, unsigned seed,
                                           double clickError = 1.0);

/// The scene such a coach draws: the pole of 200 cm as scale line, a plumb line, the stated belt
/// speed.
[[nodiscard]] Scene drawnByCarefulCoach(const SampleTruth& truth);

} // namespace latemile
