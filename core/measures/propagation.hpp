// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/evidence.hpp"
#include "core/measures/measure.hpp"

#include <optional>
#include <set>
#include <string>

namespace latemile {

/// A value with all that it came from.
struct Propagated {
    std::optional<double> value;
    std::string missing; ///< why there is no value
    ErrorShares shares;
    CommonErrors common;
    std::set<MarkKey> marks;
    std::set<EventKey> events;
    bool readLate{};

    [[nodiscard]] double standardError() const;
};

/// The one routine that gives every measure its error (first order, JCGM 100:2008 "GUM" 5.1.2):
/// each mark, event and scene quantity the formula used is shifted a little, and the slopes are
/// weighted with the standard errors. `formula` is the measure's own or its clip formula.
[[nodiscard]] Propagated propagate(const PreparedClip& clip, const Measure& measure,
                                   double (*formula)(Evidence&), std::size_t step);

} // namespace latemile
