// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/repeatability.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// A slope that one bad day does not carry away.
struct TheilSen {
    double slope{};     ///< median of the slopes of all pairs (Theil 1950; Sen 1968)
    double intercept{}; ///< median of y less slope times median of x
    /// 95 %, from the ranks of the pair slopes (Sen 1968, with its correction for ties). None with
    /// fewer than five points: even the whole range of the slopes holds the true one with a chance
    /// of 1 - 2/n! only, 92 % of four points.
    std::optional<WithInterval> interval;
    int points{};
};
inline constexpr int fewestForTrend = 5;

/// One point a pair; nothing where fewer than two different x are given or a number is none.
[[nodiscard]] std::optional<TheilSen> theilSen(const std::vector<double>& x,
                                               const std::vector<double>& y);

/// Days since 1970-01-01 of an ISO 8601 date, "2026-08-29"; nothing for anything else.
[[nodiscard]] std::optional<int> dayNumber(std::string_view isoDate);
inline constexpr double daysAMonth = 365.25 / 12.0;

} // namespace latemile
