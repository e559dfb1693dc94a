// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/prediction.hpp"

#include "core/rounding.hpp"

#include <array>
#include <cmath>
#include <string_view>

namespace latemile {

namespace {

constexpr double farthestApart = 0.25; // share of the first speed (a choice of this project)

/// How a measure moves with speed: units a m/s, or percent a percent of speed.
struct SpeedSlope {
    std::string_view measure;
    double perMetreASecond{};
    double percentAPercent{};
    std::string_view words;
    std::string_view source;
};
constexpr std::array slopes{
    SpeedSlope{"step_rate", 5.6, 0.0, "+5.6 steps/min a m/s", "Burns 2019, J Appl Physiol"},
    SpeedSlope{"contact_time", 0.0, -0.7, "about -0.7 % a 1 % of speed",
               "recalled from the literature, not re-read"}};

const SpeedSlope* slopeOf(std::string_view measure)
{
    for (const auto& slope : slopes) {
        if (slope.measure == measure) {
            return &slope;
        }
    }
    return nullptr;
}

} // namespace

std::optional<SpeedEstimate> estimateAcrossSpeeds(const Measure& measure, double firstMean,
                                                  double firstSpeed, double secondMean,
                                                  double secondSpeed)
{
    const auto* slope = slopeOf(measure.id);
    const double faster = secondSpeed - firstSpeed;
    if (slope == nullptr || !(firstSpeed > 0.0) || std::abs(faster) > farthestApart * firstSpeed) {
        return std::nullopt;
    }
    const double predicted = firstMean + slope->perMetreASecond * faster +
                             firstMean * slope->percentAPercent * faster / firstSpeed;
    const auto number = [&](double value) { return fixedText(value, measure.decimals); };
    const auto unit = " " + std::string(symbolOf(measure.unit));
    const double difference = secondMean - predicted;
    SpeedEstimate estimate{predicted, difference, std::string(slope->source), {}};
    estimate.sentence =
        "An estimate, not a comparison: " + std::string(measure.same) + " goes with speed by " +
        std::string(slope->words) + " (" + estimate.source + "). That takes " + number(firstMean) +
        unit + " at " + fixedText(firstSpeed, 2) + " m/s to " + number(predicted) + unit + " at " +
        fixedText(secondSpeed, 2) + " m/s; measured is " + number(secondMean) + unit + ", " +
        number(std::abs(difference)) + unit + (difference < 0.0 ? " less." : " more.");
    return estimate;
}

std::string againstTheUsual(const Measure& measure, double freshMean, double change)
{
    if (measure.id != "step_rate" || !(freshMean > 0.0)) {
        return {};
    }
    const double percent = 100.0 * change / freshMean;
    const auto words = fixedText(std::abs(percent), 1);
    const auto moved = words == "0.0"  ? std::string("The step rate stayed as it was")
                       : percent > 0.0 ? "The step rate rose by " + words + " %"
                                       : "The step rate fell by " + words + " %";
    return moved + "; a fall of 3 to 5 % is usual in a tired runner (common practice, no source), "
                   "groups in a hard run fell by about 1 % (Hunter & Smith 2007, Eur J Appl "
                   "Physiol 100:653).";
}

} // namespace latemile
