// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/still_choice.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace latemile {
namespace {

bool showsBody(FrameNumber frame, const Marking& marking)
{
    const auto others =
        std::count_if(sideViewLandmarks.begin(), sideViewLandmarks.end(), [&](Landmark landmark) {
            return landmark != Landmark::Hip && marking.find({frame, BodySide::Near, landmark});
        });
    return marking.find({frame, BodySide::Near, Landmark::Hip}) && others >= 2;
}

/// A measure's values by step number, with what is typical of them.
struct Typical {
    std::map<int, double> values;
    double median{};
    double spread{}; ///< mean distance from the median; 0 where all are alike
};

bool belongsTo(const Reading& reading, const std::string& measure, Foot foot)
{
    return reading.measure == measure && reading.step && reading.value &&
           reading.foot.value_or(foot) == foot;
}

/// What nobody confirmed has a say only where nothing is confirmed.
Typical typicalOf(const Readings& readings, const std::string& measure, Foot foot)
{
    Typical typical;
    std::vector<double> values;
    const bool isAnyConfirmed = std::ranges::any_of(readings.readings, [&](const Reading& reading) {
        return belongsTo(reading, measure, foot) && reading.confirmed;
    });
    for (const Reading& reading : readings.readings) {
        if (belongsTo(reading, measure, foot) && (reading.confirmed || !isAnyConfirmed)) {
            typical.values[reading.step->value] = *reading.value;
            values.push_back(*reading.value);
        }
    }
    if (values.empty()) {
        return typical;
    }
    typical.median = medianOf(values);
    for (const double value : values) {
        typical.spread += std::abs(value - typical.median);
    }
    typical.spread /= static_cast<double>(values.size());
    return typical;
}

double distance(const Typical& typical, StepNumber step)
{
    if (typical.values.empty()) {
        return 0.0; // nobody has it: it tells no step from another
    }
    const auto found = typical.values.find(step.value);
    if (found == typical.values.end()) {
        return 1.0;
    }
    return typical.spread > 0.0 ? std::abs(found->second - typical.median) / typical.spread : 0.0;
}

/// Of the measures that the choice goes by: all others may well rest on marks that were never
/// asked for.
bool isConfirmed(const Readings& readings, const Step& step,
                 const std::vector<std::string>& measures)
{
    bool any = false;
    for (const Reading& reading : readings.readings) {
        if (reading.step == step.number && reading.value &&
            std::ranges::find(measures, reading.measure) != measures.end()) {
            any = true;
            if (!reading.confirmed) {
                return false;
            }
        }
    }
    return any;
}

} // namespace

bool canBeShown(const Step& step, const Marking& marking, const FrameIndex& index,
                const std::vector<Instant>& instants)
{
    return std::ranges::all_of(instants, [&](Instant instant) {
        const auto frame = frameOf(step, instant, index);
        return frame && showsBody(*frame, marking);
    });
}

std::vector<StepNumber> showableSteps(const std::vector<Step>& steps, Foot foot,
                                      const Marking& marking, const FrameIndex& index,
                                      const std::vector<Instant>& instants)
{
    std::vector<StepNumber> numbers;
    for (const Step& step : steps) {
        if (step.foot == foot && canBeShown(step, marking, index, instants)) {
            numbers.push_back(step.number);
        }
    }
    return numbers;
}

std::optional<Step> typicalStep(const Readings& readings, const Marking& marking,
                                const FrameIndex& index, Foot foot,
                                const std::vector<std::string>& measures,
                                const std::vector<Instant>& instants)
{
    std::vector<Typical> typicals;
    const auto& ids = measures.empty() ? defaultMeasures() : measures;
    for (const std::string& measure : ids) {
        typicals.push_back(typicalOf(readings, measure, foot));
    }
    std::optional<Step> best;
    std::pair<bool, double> bestRank; // unconfirmed last, then by distance
    for (const Step& step : readings.steps) {
        if (step.foot != foot || !canBeShown(step, marking, index, instants)) {
            continue;
        }
        double sum = 0.0;
        for (const Typical& typical : typicals) {
            sum += distance(typical, step.number);
        }
        const std::pair rank{!isConfirmed(readings, step, ids), sum};
        if (!best || rank < bestRank) {
            best = step;
            bestRank = rank;
        }
    }
    return best;
}

namespace {

/// Whether any of the landmarks is marked on the frame, and whether all that are, are placed.
struct MarkedThere {
    bool any{};
    bool allPlaced{true};
};

MarkedThere markedOn(FrameNumber frame, const std::vector<Landmark>& landmarks,
                     const Marking& marking)
{
    MarkedThere there;
    for (const Landmark landmark : landmarks) {
        if (const Mark* mark = marking.find({frame, BodySide::Near, landmark})) {
            there.any = true;
            there.allPlaced = there.allPlaced && mark->origin == Origin::Placed;
        }
    }
    return there;
}

} // namespace

InstantCount countInstants(const std::vector<Step>& steps, const Marking& marking,
                           const FrameIndex& index, Foot nearFoot, const AskedLandmarks& asked)
{
    InstantCount count;
    for (const Step& step : steps) {
        for (const Instant instant : instantsInOrder) {
            const auto frame = frameOf(step, instant, index);
            const auto& landmarks = asked.at(instant, step.foot == nearFoot);
            if (!frame || landmarks.empty()) {
                continue;
            }
            const auto there = markedOn(*frame, landmarks, marking);
            count.marked += there.any ? 1 : 0;
            count.confirmed +=
                there.any && there.allPlaced && step.origin == Origin::Placed ? 1 : 0;
        }
    }
    return count;
}

} // namespace latemile
