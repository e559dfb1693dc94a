// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/explanation.hpp"

#include "core/measures/prepared_twice.hpp"
#include "core/measures/remedies.hpp"
#include "core/measures/step_readings.hpp"

#include <algorithm>
#include <array>
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
    const auto steps = propagatedSteps(clip, measure);
    const auto& from = steps.at(i);
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

/// A step's value that enters a mean.
struct Entering {
    Propagated from;
    Foot foot{};
    StepNumber number;
};

/// What the steps' values hold together.
struct Gathered {
    std::vector<Entering> steps;
    std::string missing; ///< of the last that has no value
};

/// Of both feet the earliest in equal numbers, where only together they are a value.
void pairUp(std::vector<Entering>& steps)
{
    const auto count = [&steps](Foot foot) {
        return std::ranges::count(steps, foot, &Entering::foot);
    };
    const auto most = std::min(count(Foot::Left), count(Foot::Right));
    std::array<std::ptrdiff_t, 2> kept{};
    std::erase_if(steps, [&](const Entering& step) {
        return ++kept[static_cast<std::size_t>(step.foot)] > most;
    });
}

Gathered gathered(const PreparedClip& clip, const Measure& measure, const MeanOf& of)
{
    Gathered all;
    auto steps = propagatedSteps(clip, measure);
    for (auto& [i, from] : steps) {
        const auto foot = clip.steps[i].foot;
        if (of.foot && foot != *of.foot) {
            continue;
        }
        if (!from.value) {
            all.missing = from.missing;
        } else {
            all.steps.push_back({std::move(from), foot, clip.steps[i].number});
        }
    }
    if (measure.feet == Feet::Together && !of.foot) {
        pairUp(all.steps);
        all.missing = all.missing.empty() ? "it takes a step of each foot" : all.missing;
    }
    return all;
}

double meanOf(const std::vector<Entering>& steps)
{
    double sum = 0.0;
    for (const auto& step : steps) {
        sum += *step.from.value;
    }
    return sum / static_cast<double>(steps.size());
}

/// Over the steps; of both feet together within each foot, so that the girdle's turn is no spread.
double varianceOf(const std::vector<Entering>& steps, bool withinFoot)
{
    std::array<std::vector<Entering>, 2> groups;
    for (const auto& step : steps) {
        groups[withinFoot ? static_cast<std::size_t>(step.foot) : 0].push_back(step);
    }
    double squares = 0.0;
    double free = 0.0;
    for (const auto& group : groups) {
        const double mean = group.empty() ? 0.0 : meanOf(group);
        for (const auto& step : group) {
            squares += square(*step.from.value - mean);
        }
        free += group.empty() ? 0.0 : static_cast<double>(group.size()) - 1.0;
    }
    return free > 0.0 ? squares / free : 0.0;
}

void addMean(Explanation& it, const std::vector<Entering>& steps, const PreparedClip& clip,
             const Measure& measure)
{
    const auto n = static_cast<double>(steps.size());
    ErrorBudget sum;
    CommonErrors common;
    for (const auto& [from, foot, number] : steps) {
        sum = sum + budgetOf(from);
        common.events += from.common.events / n;
        common.scale += from.common.scale / n;
        common.plumb += from.common.plumb / n;
        common.belt += from.common.belt / n;
    }
    it.value = meanOf(steps);
    it.steps = static_cast<int>(steps.size());
    // Of marks and events what each step has on its own; what the steps share is not divided.
    auto budget = divided(sum, n * n);
    budget.commonEvents = square(common.events);
    budget.scale = square(common.scale);
    budget.plumb = square(common.plumb);
    budget.belt = square(common.belt);
    budget.steps = it.steps;
    const double noise = budget.ofMarks() + budget.ofEvents();
    const double spread = varianceOf(steps, measure.feet == Feet::Together) / n;
    budget.spread = std::max(spread - noise, 0.0);
    addBudget(it, budget, clip, measure);
}

Explanation ofClip(const PreparedClip& clip, const Measure& measure, const MeanOf& of)
{
    auto it = definitionOf(measure);
    it.foot = of.foot;
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
    const auto all = gathered(clip, measure, of);
    if (all.steps.empty()) {
        it.reason = clip.steps.empty() ? "no step is marked" : all.missing;
        it.reason = it.reason.empty() ? "no step of the near foot is marked" : it.reason;
        return it;
    }
    addMean(it, all.steps, clip, measure);
    return it;
}

/// By the coach's word alone, where that gives the value.
std::optional<Explanation> confirmedOfStep(const PreparedTwice& twice, const Measure& measure,
                                           StepNumber number)
{
    const auto step = number.value > 0
                          ? twice.confirmedStep(static_cast<std::size_t>(number.value - 1))
                          : std::nullopt;
    if (!twice.confirmed || !step) {
        return std::nullopt;
    }
    auto it = ofStep(*twice.confirmed, measure, twice.confirmed->steps[*step].number);
    if (!it || !it->value) {
        return std::nullopt;
    }
    it->step = number;
    return std::move(*it);
}

/// Of a mean that no confirmed step enters.
std::string whyUnconfirmed(const PreparedTwice& twice, const Measure& measure, const MeanOf& of)
{
    const auto steps = gathered(twice.all, measure, of).steps;
    const auto isOpen = [&twice](const Entering& step) {
        return !twice.confirmedStep(static_cast<std::size_t>(step.number.value - 1));
    };
    const auto open = std::find_if(steps.rbegin(), steps.rend(), isOpen);
    if (steps.empty()) {
        return ofClip(twice.all, measure, of).reason;
    }
    const auto& named = open == steps.rend() ? steps.back() : *open;
    return "not all marks of step " + std::to_string(named.number.value) + " are confirmed";
}

/// Of a measure that is one value a clip: as the readings have it.
Explanation ofWholeClip(const PreparedTwice& twice, const Measure& measure)
{
    auto it = ofClip(twice.coachs(), measure, {});
    return it.value ? it : ofClip(twice.all, measure, {});
}

} // namespace

Outcome<Explanation> explain(const MarkedClip& clip, const Measure& measure,
                             std::optional<StepNumber> step)
{
    ASSIGN_OR_RETURN(const auto twice, prepareTwice(clip));
    if (!step) {
        return measure.formula ? ofClip(twice.all, measure, {}) : ofWholeClip(twice, measure);
    }
    if (auto confirmed = confirmedOfStep(twice, measure, *step)) {
        return std::move(*confirmed);
    }
    return ofStep(twice.all, measure, *step);
}

Outcome<Explanation> explainMean(const MarkedClip& clip, const Measure& measure, const MeanOf& of)
{
    ASSIGN_OR_RETURN(const auto twice, prepareTwice(clip));
    auto it = ofClip(of.confirmedOnly ? twice.coachs() : twice.all, measure, of);
    if (of.confirmedOnly && twice.confirmed && !it.value && measure.formula) {
        it.reason = whyUnconfirmed(twice, measure, of);
    }
    return it;
}

} // namespace latemile
