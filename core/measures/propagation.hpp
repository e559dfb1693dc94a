// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/event_speeds.hpp"
#include "core/measures/evidence.hpp"
#include "core/measures/measure.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// Mean speed of a belt over its set value: 98 to 103 % (Willwacher 2021, Sci Rep,
/// s41598-021-81951-9), as the root mean square of a uniform distribution: sqrt((0.03^3 + 0.02^3) /
/// (3 * 0.05)).
inline constexpr double beltError = 0.0153;

/// The shares of a reading's variance in detail. Those of marks add up to the share of the same
/// name in ErrorShares; those of events with the square of what all steps share
/// (CommonErrors::events).
struct DetailedShares {
    /// By side and landmark, see landmarkShare; from the marks the value uses itself.
    std::array<double, 4 * landmarkCount> landmarks{};
    double flatFoot{}; ///< of the marks on the other frames the flat foot is the median of
    double trunk{};    ///< likewise of the mean trunk
    double contacts{}; ///< beyond what all contacts of the clip share
    double toeOffs{};
    double readLate{};   ///< the value ran on until the first frame after the event
    double readMidway{}; ///< and around mid-stance
    [[nodiscard]] double landmarkShare(BodySide side, Landmark landmark) const
    {
        return landmarks[placeOf(side, landmark)];
    }
    [[nodiscard]] static std::size_t placeOf(BodySide side, Landmark landmark)
    {
        return static_cast<std::size_t>(side) * landmarkCount + static_cast<std::size_t>(landmark);
    }
};

/// A value with all that it came from.
struct Propagated {
    std::optional<double> value;
    std::string missing; ///< why there is no value
    ErrorShares shares;
    DetailedShares detail;
    CommonErrors common;
    /// Where it was read from marks at one event of the kind; a difference of two has no one speed.
    std::optional<EventSpeed> atContact{};
    std::optional<EventSpeed> atToeOff{};
    std::vector<MarkKey> marks;   ///< in order, each once
    std::vector<EventKey> events; ///< likewise
    bool readLate{};
    double lateBy{}; ///< how far a typical value runs on until the frame read late, in its unit

    [[nodiscard]] double standardError() const;
};

/// Variance of an event's time beyond the judgement that all events of its kind in a clip share,
/// seconds squared.
[[nodiscard]] double ownEventVariance(const PreparedClip& clip, std::size_t step);

/// The one routine that gives every measure its error (first order, JCGM 100:2008 "GUM" 5.1.2, with
/// 5.2.2 for followed marks of one path, which share part of their error): each mark, event and
/// scene quantity the formula used is shifted a little, and the slopes are weighted with the
/// standard errors. `formula` is the measure's own or its clip formula. A value that is no number
/// (a division by nothing) is missing and says so.
[[nodiscard]] Propagated propagate(const PreparedClip& clip, const Measure& measure,
                                   const Formula& formula, std::size_t step);

} // namespace latemile
