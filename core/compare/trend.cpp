// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/trend.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

namespace latemile {

namespace {

constexpr double normalQuantile = 1.959963984540054;

/// Of each group of equal values with k members: k (k - 1) (2k + 5).
double tied(std::vector<double> values)
{
    std::ranges::sort(values);
    double sum = 0.0;
    for (auto from = values.begin(); from != values.end();) {
        const auto to = std::find_if(from, values.end(), [&](double v) { return v != *from; });
        const auto k = static_cast<double>(to - from);
        sum += k * (k - 1.0) * (2.0 * k + 5.0);
        from = to;
    }
    return sum;
}

std::vector<double> slopesOf(const std::vector<double>& x, const std::vector<double>& y)
{
    std::vector<double> slopes;
    for (std::size_t i = 0; i < x.size(); ++i) {
        for (std::size_t j = i + 1; j < x.size(); ++j) {
            if (x[i] != x[j]) {
                slopes.push_back((y[j] - y[i]) / (x[j] - x[i]));
            }
        }
    }
    std::ranges::sort(slopes);
    return slopes;
}

/// Kendall's variance tells how many of the ordered slopes lie outside on either side.
WithInterval intervalOf(const std::vector<double>& slopes, double slope,
                        const std::vector<double>& x, const std::vector<double>& y)
{
    const auto n = static_cast<double>(x.size());
    const double variance = (n * (n - 1.0) * (2.0 * n + 5.0) - tied(x) - tied(y)) / 18.0;
    const double reach = normalQuantile * std::sqrt(std::max(variance, 0.0));
    const auto pairs = static_cast<double>(slopes.size());
    const double low = std::max(std::nearbyint((pairs - reach) / 2.0) - 1.0, 0.0);
    const double high = std::min(std::nearbyint((pairs + reach) / 2.0), pairs - 1.0);
    return {slope, slopes[static_cast<std::size_t>(low)], slopes[static_cast<std::size_t>(high)]};
}

std::optional<int> number(std::string_view text)
{
    int value = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = fault == std::errc{} && end == text.data() + text.size();
    return whole && value >= 0 ? std::optional(value) : std::nullopt;
}

} // namespace

std::optional<TheilSen> theilSen(const std::vector<double>& x, const std::vector<double>& y)
{
    const auto finite = [](double v) { return std::isfinite(v); };
    if (x.size() != y.size() || !std::ranges::all_of(x, finite) ||
        !std::ranges::all_of(y, finite)) {
        return std::nullopt;
    }
    const auto slopes = slopesOf(x, y);
    if (slopes.empty()) {
        return std::nullopt;
    }
    TheilSen found{.slope = medianOf(slopes),
                   .intercept = 0.0,
                   .interval = std::nullopt,
                   .points = static_cast<int>(x.size())};
    found.intercept = medianOf(y) - found.slope * medianOf(x);
    if (found.points >= fewestForTrend) {
        found.interval = intervalOf(slopes, found.slope, x, y);
    }
    return found;
}

std::optional<int> dayNumber(std::string_view isoDate)
{
    if (isoDate.size() != 10 || isoDate[4] != '-' || isoDate[7] != '-') {
        return std::nullopt;
    }
    const auto year = number(isoDate.substr(0, 4));
    const auto month = number(isoDate.substr(5, 2));
    const auto day = number(isoDate.substr(8, 2));
    if (!year || !month || !day) {
        return std::nullopt;
    }
    const std::chrono::year_month_day date{std::chrono::year{*year},
                                           std::chrono::month{static_cast<unsigned>(*month)},
                                           std::chrono::day{static_cast<unsigned>(*day)}};
    if (!date.ok()) {
        return std::nullopt;
    }
    return static_cast<int>(std::chrono::sys_days(date).time_since_epoch().count());
}

} // namespace latemile
