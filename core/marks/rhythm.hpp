// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// A place where contacts and toe-offs do not go on as the others of the clip do.
struct RhythmFault {
    enum class Kind {
        MissedContact,
        DoubledContact,
        OddInterval, ///< between contacts of unlike feet
        MissedToeOff,
        LateToeOff, ///< after the other foot's contact: both feet on the ground is walking
        OddStance   ///< much shorter or longer on the ground than the others
    };
    Kind kind{};
    Foot foot{};  ///< of the event to look for or at
    Seconds at{}; ///< where to look; of a missed event: where the others let it be expected
    std::string sentence;
    bool operator==(const RhythmFault&) const = default;
};

/// Every place that breaks the alternation of the feet or the rhythm of the others, in order of
/// time. `stances` in order of contact. Intervals are judged from the fourth contact on, when there
/// are others to judge by; a step may be 0.7 to 1.4 of their median (own choice: twice what
/// asymmetry and step-to-step scatter make of it). The last stance may lack its toe-off.
[[nodiscard]] std::vector<RhythmFault> rhythmFaults(const std::vector<Stance>& stances);

/// What comes after the last event marked.
struct ExpectedEvent {
    Foot foot{};
    bool isToeOff{};
    Seconds at{};
};

/// By the median of the steps so far; before there are any, by an easy run's (240 ms on the ground,
/// 100 ms in the air). Nothing before the first contact.
[[nodiscard]] std::optional<ExpectedEvent> nextExpected(const std::vector<Stance>& stances);

} // namespace latemile
