// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/left_right.hpp"

#include "core/compare/welch.hpp"
#include "core/measures/measure.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double normalQuantile = 1.959963984540054;
constexpr int fewestSteps = 6;

const Summary* summaryOf(const Readings& readings, const Measure& measure, Foot foot)
{
    const auto found = std::ranges::find_if(readings.summary, [&](const Summary& summary) {
        return summary.measure == measure.id && summary.foot == foot;
    });
    return found == readings.summary.end() ? nullptr : &*found;
}

Verdict verdictOf(double difference, double halfWidth, double floor, int steps)
{
    if (steps < fewestSteps) {
        return Verdict::TooFewSteps;
    }
    const double size = std::abs(difference);
    return size > halfWidth && size >= floor ? Verdict::ClearChange : Verdict::WithinError;
}

} // namespace

std::optional<LeftRight> leftAgainstRight(const Readings& readings, const Measure& measure)
{
    if (measure.feet != Feet::Each) {
        return std::nullopt;
    }
    const Summary* left = summaryOf(readings, measure, Foot::Left);
    const Summary* right = summaryOf(readings, measure, Foot::Right);
    if (left == nullptr || right == nullptr || left->n < 2 || right->n < 2) {
        return std::nullopt;
    }
    const auto welch =
        welchDifference({.n = right->n, .mean = right->mean, .sd = right->sd.value_or(0.0)},
                        {.n = left->n, .mean = left->mean, .sd = left->sd.value_or(0.0)});
    const double judgement = std::hypot(left->common.events, right->common.events);
    const double halfWidth = std::hypot(welch.halfWidth(), normalQuantile * judgement);
    return LeftRight{
        welch.difference, halfWidth,
        verdictOf(welch.difference, halfWidth, measure.floor, std::min(left->n, right->n))};
}

} // namespace latemile
