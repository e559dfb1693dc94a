// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/prepared_clip.hpp"
#include "core/measures/readings.hpp"

#include <vector>

namespace latemile {

/// Every check of the scene and the marking, in a fixed order; what cannot be checked yet is in
/// doubt and says what is missing. Ids: "events", "frame_rate", "cadence", "facing", "bones",
/// "travel", "belt", "belt_line", "capture_rate" (these four only on a treadmill), "ground" (only
/// without a belt speed; of value the foot's speed, m/s). Where no line
/// gives a scale but the belt could or does, there is "belt_scale" (cm a pixel and its error);
/// unless the leg's length is the scale it stands in for the other four, being no witness of them.
[[nodiscard]] std::vector<Check> checksOf(const PreparedClip& clip);

/// The belt's movement under the standing foot, from heel or toe marks between 25 and 50 % of
/// stance.
struct BeltWitness {
    double
        ratio{}; ///< picture's foot speed / stated belt speed, median of the stances; + backwards
    double se{};
    double
        slopeDegrees{}; ///< path of the foot against the level, + uphill in the direction of travel
    int stances{};
};
[[nodiscard]] std::optional<BeltWitness> beltWitness(const PreparedClip& clip);

} // namespace latemile
