// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace latemile {

struct Propagated;

/// How fast a value runs on at the event it was read at, and what the event's error makes of that.
struct EventSpeed {
    double
        seen{}; ///< mean of the squared speeds before and after it, units squared a second squared
    double noise{};  ///< variance that the marks give to either speed
    double own{};    ///< variance of the event's time that is its own, seconds squared
    double shared{}; ///< and what all events of its kind in the clip share

    /// A speed's square is too large on average by the variance of the speed, which is taken off as
    /// far as it is what is seen: whole of a speed that does not stand out of its noise, ever less
    /// of a faster one, whose own error outweighs that (a choice of this project).
    [[nodiscard]] double withoutNoise() const;
};

/// Of the values of one measure at several steps of a foot: gives all of them the mean square speed
/// at contact, and at toe-off, of all, the noise of the marks taken off (a choice of this project).
/// The few marks of one step say little of how fast it landed, and the steps of a run land alike.
void shareEventSpeeds(std::span<Propagated* const> steps);

} // namespace latemile
