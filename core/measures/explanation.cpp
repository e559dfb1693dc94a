// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/explanation.hpp"

#include "core/measures/remedies.hpp"
#include "core/measures/step_readings.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

double square(double value)
{
    return value * value;
}

Explanation definitionOf(const Measure& measure)
{
    Explanation it;
    it.measure = measure.id;
    it.name = measure.name;
    it.unit = symbolOf(measure.unit);
    it.decimals = measure.decimals;
    it.meaning = measure.meaning;
    it.positive = measure.positive;
    it.instant = measure.instantWords;
    it.traps = measure.traps;
    it.source = measure.source;
    it.floor = measure.floor;
    it.steps = 1;
    return it;
}

std::string marksOf(std::size_t place)
{
    const auto side = static_cast<BodySide>(place / landmarkCount);
    const auto landmark = std::string(nameOf(static_cast<Landmark>(place % landmarkCount)));
    return "marks of the " +
           (side == BodySide::Near ? landmark : std::string(nameOf(side)) + " " + landmark);
}

std::vector<ErrorSource> sourcesOf(const ErrorBudget& budget)
{
    std::vector<ErrorSource> sources;
    const double sum = budget.sum();
    const auto add = [&](std::string name, double variance) {
        if (variance > 0.0) {
            sources.push_back({std::move(name), variance, variance / sum});
        }
    };
    for (std::size_t i = 0; i < budget.detail.landmarks.size(); ++i) {
        add(marksOf(i), budget.detail.landmarks[i]);
    }
    add("heel and toe while the foot is flat", budget.detail.flatFoot);
    add("mean length of the trunk", budget.detail.trunk);
    add("contact", budget.detail.contacts);
    add("toe-off", budget.detail.toeOffs);
    add("reading on the first frame after the event", budget.detail.readLate);
    add("reading on the frame nearest to mid-stance", budget.detail.readMidway);
    add("judgement of events all steps share", budget.commonEvents);
    add("scale", budget.scale);
    add("plumb line", budget.plumb);
    add("belt speed", budget.belt);
    add("the runner's own spread of steps", budget.spread);
    std::ranges::stable_sort(sources, std::greater<>(), &ErrorSource::variance);
    return sources;
}

void addBudget(Explanation& it, const ErrorBudget& budget, const PreparedClip& clip,
               const Measure& measure)
{
    it.se = std::sqrt(budget.sum());
    it.sources = sourcesOf(budget);
    it.remedies = remediesFor(budget, clip, measure);
}

ErrorBudget budgetOf(const Propagated& from)
{
    return {.detail = from.detail,
            .scale = from.shares.scale,
            .plumb = from.shares.plumb,
            .belt = from.shares.belt,
            .commonEvents = square(from.common.events)};
}

std::vector<MarkUsed> marksUsed(const Propagated& from, const PreparedClip& clip)
{
    std::vector<MarkUsed> marks;
    for (const auto& key : from.marks) {
        const auto* point = clip.tracks.find(key);
        marks.push_back({key, point->mark, point->sePx});
    }
    return marks;
}

Outcome<Explanation> ofStep(const PreparedClip& clip, const Measure& measure, StepNumber number)
{
    if (number.value < 1 || number.value > static_cast<int>(clip.steps.size())) {
        return fail(Error::Kind::NotFound, "The clip has " + std::to_string(clip.steps.size()) +
                                               " steps; there is no step " +
                                               std::to_string(number.value) + ".");
    }
    const auto i = static_cast<std::size_t>(number.value - 1);
    const auto& step = clip.steps[i];
    auto it = definitionOf(measure);
    it.step = number;
    it.foot = step.foot;
    if (!measure.formula) {
        it.reason = "one value a clip: leave the step out";
        return it;
    }
    if (!concerns(measure, step, clip)) {
        it.reason = measure.feet == Feet::Pairs
                        ? "a pair begins with a left step; step " + std::to_string(number.value) +
                              " is a right one"
                        : "read on the near foot's steps alone; step " +
                              std::to_string(number.value) + " is of the far foot";
        return it;
    }
    const auto from = propagatedAt(clip, measure, i);
    it.value = from.value;
    it.reason = from.missing;
    if (from.value) {
        it.marks = marksUsed(from, clip);
        addBudget(it, budgetOf(from), clip, measure);
    }
    return it;
}

/// Sum of the parts of several values.
ErrorBudget operator+(ErrorBudget a, const ErrorBudget& b)
{
    for (std::size_t i = 0; i < a.detail.landmarks.size(); ++i) {
        a.detail.landmarks[i] += b.detail.landmarks[i];
    }
    a.detail.flatFoot += b.detail.flatFoot;
    a.detail.trunk += b.detail.trunk;
    a.detail.contacts += b.detail.contacts;
    a.detail.toeOffs += b.detail.toeOffs;
    a.detail.readLate += b.detail.readLate;
    a.detail.readMidway += b.detail.readMidway;
    return a;
}

/// The independent parts divided, the rest left.
ErrorBudget divided(ErrorBudget a, double by)
{
    for (auto& share : a.detail.landmarks) {
        share /= by;
    }
    for (auto* part : {&a.detail.flatFoot, &a.detail.trunk, &a.detail.contacts, &a.detail.toeOffs,
                       &a.detail.readLate, &a.detail.readMidway}) {
        *part /= by;
    }
    return a;
}

/// What the steps' values hold together.
struct Gathered {
    ErrorBudget sum;
    std::vector<double> values;
    CommonErrors common; ///< summed up
    std::string missing; ///< of the last that has no value
};

Gathered gathered(const PreparedClip& clip, const Measure& measure)
{
    Gathered all;
    for (std::size_t i = 0; i < clip.steps.size(); ++i) {
        if (!concerns(measure, clip.steps[i], clip)) {
            continue;
        }
        const auto from = propagatedAt(clip, measure, i);
        if (!from.value) {
            all.missing = from.missing;
            continue;
        }
        all.values.push_back(*from.value);
        all.sum = all.sum + budgetOf(from);
        all.common.events += from.common.events;
        all.common.scale += from.common.scale;
        all.common.plumb += from.common.plumb;
        all.common.belt += from.common.belt;
    }
    return all;
}

double varianceOf(const std::vector<double>& values, double mean)
{
    double squares = 0.0;
    for (const double value : values) {
        squares += square(value - mean);
    }
    return values.size() > 1 ? squares / static_cast<double>(values.size() - 1) : 0.0;
}

void addMean(Explanation& it, const Gathered& all, const PreparedClip& clip, const Measure& measure)
{
    const auto n = static_cast<double>(all.values.size());
    double mean = 0.0;
    for (const double value : all.values) {
        mean += value / n;
    }
    it.value = mean;
    it.steps = static_cast<int>(all.values.size());
    // Of marks and events what each step has on its own; what the steps share is not divided.
    auto budget = divided(all.sum, n * n);
    budget.commonEvents = square(all.common.events / n);
    budget.scale = square(all.common.scale / n);
    budget.plumb = square(all.common.plumb / n);
    budget.belt = square(all.common.belt / n);
    budget.steps = it.steps;
    const double noise = budget.ofMarks() + budget.ofEvents();
    budget.spread = std::max(varianceOf(all.values, mean) / n - noise, 0.0);
    addBudget(it, budget, clip, measure);
}

Outcome<Explanation> ofClip(const PreparedClip& clip, const Measure& measure)
{
    auto it = definitionOf(measure);
    if (!measure.formula) {
        Propagated from;
        from.missing = clip.steps.empty() ? "no step is marked" : forbiddenBy(measure, clip);
        if (from.missing.empty()) {
            from = propagate(clip, measure, measure.clipFormula, 0);
        }
        it.value = from.value;
        it.reason = from.missing;
        if (from.value) {
            it.steps = static_cast<int>(clip.steps.size());
            addBudget(it, budgetOf(from), clip, measure);
        }
        return it;
    }
    const auto all = gathered(clip, measure);
    if (all.values.empty()) {
        it.reason = clip.steps.empty() ? "no step is marked" : all.missing;
        it.reason = it.reason.empty() ? "no step of the near foot is marked" : it.reason;
        return it;
    }
    addMean(it, all, clip, measure);
    return it;
}

} // namespace

Outcome<Explanation> explain(const MarkedClip& clip, const Measure& measure,
                             std::optional<StepNumber> step)
{
    ASSIGN_OR_RETURN(const auto prepared, prepare(clip));
    return step ? ofStep(prepared, measure, *step) : ofClip(prepared, measure);
}

} // namespace latemile
