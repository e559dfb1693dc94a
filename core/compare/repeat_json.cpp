// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/repeat_json.hpp"

#include "core/measures/measure.hpp"

#include <nlohmann/json.hpp>

namespace latemile {

namespace {

using nlohmann::json;

json intervalJson(const WithInterval& number)
{
    return {{"value", number.value}, {"low", number.low}, {"high", number.high}};
}

json orNull(const std::optional<WithInterval>& number)
{
    return number ? intervalJson(*number) : json(nullptr);
}

json agreementJson(const Agreement& agreement)
{
    return {{"n", agreement.n},
            {"bias", intervalJson(agreement.bias)},
            {"sd_of_differences", agreement.sd},
            {"lower_limit", intervalJson(agreement.lowerLimit)},
            {"upper_limit", intervalJson(agreement.upperLimit)},
            {"within_target_sd", agreement.withinTargetSd}};
}

json landmarkJson(const LandmarkRepeat& repeat)
{
    return {{"landmark", nameOf(repeat.landmark)},
            {"across_px", agreementJson(repeat.across)},
            {"down_px", agreementJson(repeat.down)},
            {"click_error_cm", repeat.clickError()}};
}

json measureJson(const MeasureRepeat& repeat)
{
    const auto* measure = findMeasure(repeat.measure);
    return {{"measure", repeat.measure},
            {"unit", measure ? symbolOf(measure->unit) : ""},
            {"agreement", agreementJson(repeat.agreement)},
            {"typical_error", repeat.typicalError},
            {"mdc95", repeat.mdc95},
            {"icc_2_1", orNull(repeat.icc21)},
            {"icc_3_1", orNull(repeat.icc31)}};
}

} // namespace

json toJson(const RepeatResult& result)
{
    json document{{"version", 1},
                  {"pairs", result.pairs},
                  {"landmarks", json::array()},
                  {"measures", json::array()}};
    for (const auto& repeat : result.landmarks) {
        document["landmarks"].push_back(landmarkJson(repeat));
    }
    for (const auto& repeat : result.measures) {
        document["measures"].push_back(measureJson(repeat));
    }
    return document;
}

} // namespace latemile
