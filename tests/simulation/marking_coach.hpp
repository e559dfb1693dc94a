// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"
#include "tests/simulation/true_run.hpp"

#include <random>
#include <vector>

namespace latemile::simulation {

using Random = std::mt19937_64;

/// Which frames the coach marks.
enum class Marked {
    EveryFrame,
    FirstFrame ///< at contact and toe-off the first frame alone, and mid-stance
};

/// The scene as a hand draws it: ends of both lines to 1 px each way, the tape to 0.5 cm, the belt
/// to 1.5 % (a normal distribution of the stated spread).
[[nodiscard]] Scene drawnByHand(const TrueRun& run, Random& random);

/// One marking of a stretch of the run.
struct Marking {
    MarkedClip clip;
    std::size_t firstContact{}; ///< of the truth: that of step 1
    std::size_t steps{};
};

/// Frames begin at a random phase. Every mark is off by a normal error of the landmark's stated
/// default. An event's frame is chosen as if it were up to half a frame away (normal; a quarter of
/// a frame of that is the same for all contacts of the clip, and for all toe-offs), which is the
/// judgement the errors reckon with.
[[nodiscard]] Marking markedByHand(const TrueRun& run, const Scene& scene, Marked which,
                                   double framesASecond, double from, double seconds,
                                   Random& random);

} // namespace latemile::simulation
