// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/measures/readings.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace latemile {

/// What the two clips of a comparison are called in its reasons: "In the fresh clip a check is
/// bad". Fresh and fatigued of one day, earlier and later of two days.
struct ClipNames {
    std::string_view first{"fresh"};
    std::string_view second{"fatigued"};
};

/// Why a measure of two clips must not be compared, as a sentence; nothing where nothing stands
/// against it. Speeds may differ by 2 % for timings, lengths and stiffness, by 5 % for the rest;
/// inclines by 0.5 %; view, side, capture rate and shoes must be the same; no check of either clip
/// may be bad. A condition known of one clip only is taken to be the same.
[[nodiscard]] std::optional<std::string> whyNotComparable(const Measure& measure,
                                                          const Readings& fresh,
                                                          const Readings& fatigued,
                                                          const ClipNames& names = {});

/// The speeds are known, differ too much for the measure, and nothing else stands against it.
[[nodiscard]] bool onlySpeedForbids(const Measure& measure, const Readings& fresh,
                                    const Readings& fatigued, const ClipNames& names = {});

/// Both clips were filmed in one untouched set-up: same day, same lines drawn.
[[nodiscard]] bool isSameScene(const ClipConditions& a, const ClipConditions& b);

} // namespace latemile
