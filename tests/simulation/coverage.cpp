// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/simulation/coverage.hpp"

#include "core/compare/comparison.hpp"
#include "core/compare/welch.hpp"
#include "core/measures/measure.hpp"
#include "core/measures/summaries.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::simulation {

namespace {

constexpr double normalQuantile = 1.96;

double percent(int part, int whole)
{
    return whole > 0 ? 100.0 * part / whole : 0.0;
}

std::optional<double> truthOf(const TrueRun& run, const Marking& marking, const Reading& reading)
{
    if (!reading.step) {
        const auto clip =
            valuesOfClip(run, marking.firstContact, marking.firstContact + marking.steps);
        const auto found = clip.find(reading.measure);
        return found == clip.end() ? std::nullopt : std::optional(found->second);
    }
    const auto found = run.values.find(reading.measure);
    const auto i = marking.firstContact + static_cast<std::size_t>(reading.step->value - 1);
    return found == run.values.end() ? std::nullopt : found->second[i];
}

/// Step rate and length have a value of the whole clip besides.
std::string idOf(const Reading& reading)
{
    const auto* measure = findMeasure(reading.measure);
    const bool besides = !reading.step && measure->formula;
    return besides ? reading.measure + " of the clip" : reading.measure;
}

void countReadings(Result& result, const TrueRun& run, const Marking& marking,
                   const Readings& readings)
{
    for (const auto& reading : readings.readings) {
        const auto truth = truthOf(run, marking, reading);
        if (!reading.value || !reading.se || !truth) {
            continue;
        }
        const bool isAngle = findMeasure(reading.measure)->unit == Unit::Degree;
        const double error =
            isAngle ? std::remainder(*reading.value - *truth, 360.0) : *reading.value - *truth;
        auto& counts = result.byMeasure[idOf(reading)];
        ++counts.readings;
        counts.readingsInside += std::abs(error) <= normalQuantile * *reading.se ? 1 : 0;
        counts.errorSum += error;
        counts.errorSquares += error * error;
        counts.statedSquares += *reading.se * *reading.se;
    }
}

double halfWidthOf(const Summary& summary)
{
    const double steps = studentQuantile(0.975, summary.degreesOfFreedom) * *summary.sd *
                         widenedBy(*findMeasure(summary.measure), summary.n) /
                         std::sqrt(static_cast<double>(summary.n));
    const auto& common = summary.common;
    return std::hypot(steps, normalQuantile * std::hypot(std::hypot(common.events, common.scale),
                                                         std::hypot(common.plumb, common.belt)));
}

void countMeans(Result& result, const TrueRun& run, const Readings& readings)
{
    for (const auto& summary : readings.summary) {
        const auto foot =
            summary.foot ? std::optional(*summary.foot == latemile::Foot::Left ? maker::Foot::Left
                                                                               : maker::Foot::Right)
                         : std::nullopt;
        const auto truth = meanOf(run, summary.measure, foot);
        if (!truth || !summary.sd || summary.degreesOfFreedom < 1) {
            continue;
        }
        auto& counts = result.byMeasure[summary.measure];
        ++counts.means;
        counts.meansInside += std::abs(summary.mean - *truth) <= halfWidthOf(summary) ? 1 : 0;
    }
}

void countVerdicts(Result& result, const Readings& first, const Readings& second)
{
    bool forbidden = false;
    for (const auto& row : compare(first, second).rows) {
        forbidden = forbidden || row.verdict == Verdict::NotComparable;
        const bool judged =
            row.verdict == Verdict::ClearChange || row.verdict == Verdict::WithinError;
        if (!judged) {
            continue;
        }
        auto& counts = result.byMeasure[row.measure];
        const double floor = findMeasure(row.measure)->floor;
        ++counts.pairs;
        counts.falselyClear += row.verdict == Verdict::ClearChange ? 1 : 0;
        counts.beyondError += std::abs(*row.change) > *row.halfWidth ? 1 : 0;
        for (std::size_t i = 0; i < changes.size(); ++i) {
            // Had all steps of the second clip been so much more, the spread would be the same.
            const double change = *row.change + changes[i] * floor;
            counts.found[i] += change > *row.halfWidth && change >= floor ? 1 : 0;
        }
    }
    result.notComparable += forbidden ? 1 : 0;
}

Outcome<void> remarkOnce(Result& result, const TrueRun& run, const Study& study, Random& random)
{
    const auto scene = drawnByHand(run, random);
    std::uniform_real_distribution<double> start(0.1, run.recipe.video.duration -
                                                          study.clipSeconds - 0.2);
    const auto mark = [&] {
        return markedByHand(run, scene, study.marked, study.framesASecond, start(random),
                            study.clipSeconds, random);
    };
    const auto first = mark();
    const auto second = mark();
    ASSIGN_OR_RETURN(const auto a, readingsOf(first.clip));
    ASSIGN_OR_RETURN(const auto b, readingsOf(second.clip));
    for (const auto& [marking, readings] : {std::pair(&first, &a), std::pair(&second, &b)}) {
        countReadings(result, run, *marking, *readings);
        countMeans(result, run, *readings);
        ++result.clips;
    }
    countVerdicts(result, a, b);
    return {};
}

maker::ClipRecipe recipeOf(maker::RunnerRecipe runner, maker::View view)
{
    return {.runner = runner,
            .camera = {.view = view},
            .video = {.captureRate = 120.0, .duration = 40.0}};
}

} // namespace

double Counts::readingCoverage() const
{
    return percent(readingsInside, readings);
}
double Counts::meanCoverage() const
{
    return percent(meansInside, means);
}
double Counts::bias() const
{
    return readings > 0 ? errorSum / readings : 0.0;
}
double Counts::errorSd() const
{
    return readings > 0 ? std::sqrt(std::max(errorSquares / readings - bias() * bias(), 0.0)) : 0.0;
}
double Counts::statedSe() const
{
    return readings > 0 ? std::sqrt(statedSquares / readings) : 0.0;
}
double Counts::falseClear() const
{
    return percent(falselyClear, pairs);
}
double Counts::power(std::size_t change) const
{
    return percent(found[change], pairs);
}

Outcome<Result> studied(const Study& study)
{
    Result result;
    Random random(study.seed);
    const auto runners = static_cast<int>(study.runners.size());
    for (int i = 0; i < runners; ++i) {
        ASSIGN_OR_RETURN(const auto run, trueRun(study.runners[static_cast<std::size_t>(i)]));
        // Two clips a turn, the runners as evenly as it goes.
        const int turns = (study.remarkings / 2 + i) / runners;
        for (int turn = 0; turn < turns; ++turn) {
            RETURN_IF_ERROR(remarkOnce(result, run, study, random));
        }
    }
    return result;
}

std::vector<maker::ClipRecipe> sideRunners()
{
    using maker::Landing;
    using maker::View;
    return {
        recipeOf({.seed = 11}, View::LeftSide),
        recipeOf({.seed = 12, .speed = 3.2, .stepRate = 174.0, .stature = 178.0}, View::RightSide),
        recipeOf({.seed = 13, .speed = 2.4, .stepRate = 162.0, .fatigue = 0.8}, View::LeftSide),
        recipeOf({.seed = 14, .speed = 3.0, .stepRate = 178.0, .landing = Landing::Forefoot},
                 View::RightSide)};
}

std::vector<maker::ClipRecipe> rearRunners()
{
    return {
        recipeOf({.seed = 21}, maker::View::Rear),
        recipeOf({.seed = 22, .speed = 3.0, .stepRate = 174.0, .fatigue = 0.6}, maker::View::Rear)};
}

} // namespace latemile::simulation
