// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/readings.hpp"

#include "core/measures/checks.hpp"
#include "core/measures/prepared_twice.hpp"
#include "core/measures/step_readings.hpp"
#include "core/measures/summaries.hpp"

#include <algorithm>
#include <atomic>
#include <iterator>
#include <map>
#include <thread>
#include <utility>

namespace latemile {

std::string_view nameOf(Check::State state)
{
    switch (state) {
    case Check::State::Good:
        return "good";
    case Check::State::Doubt:
        return "doubt";
    case Check::State::Bad:
        return "bad";
    }
    return {};
}

namespace {

/// One for every ten steps: fewer are read before a thread is there.
std::size_t threadsFor(const PreparedClip& clip)
{
    constexpr std::size_t stepsEach = 10;
    return std::clamp<std::size_t>(clip.steps.size() / stepsEach, 1,
                                   std::max(std::thread::hardware_concurrency(), 1U));
}

/// Measures are read beside each other: none changes what another looks at.
std::vector<std::vector<Reading>> eachRead(const PreparedClip& clip,
                                           const std::vector<const Measure*>& measures)
{
    std::vector<std::vector<Reading>> each(measures.size());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t i = next++; i < measures.size(); i = next++) {
            each[i] = readingsOfMeasure(clip, *measures[i]);
        }
    };
    std::vector<std::jthread> others;
    for (std::size_t n = 1; n < threadsFor(clip); ++n) {
        others.emplace_back(work);
    }
    work();
    others.clear();
    return each;
}

std::vector<Reading> allRead(const PreparedClip& clip, const std::vector<const Measure*>& measures)
{
    std::vector<Reading> all;
    for (auto& readings : eachRead(clip, measures)) {
        std::ranges::move(readings, std::back_inserter(all));
    }
    return all;
}

/// A measure at a step of the whole clip, or (none) of the clip.
using Place = std::pair<std::string, std::optional<StepNumber>>;

/// What is read from the coach's part alone, by its place in the whole.
std::map<Place, Reading> confirmedReadings(const PreparedTwice& twice,
                                           const std::vector<const Measure*>& measures)
{
    std::map<Place, Reading> confirmed;
    for (auto& reading : allRead(*twice.confirmed, measures)) {
        if (!reading.value) {
            continue;
        }
        if (reading.step) {
            const auto of = static_cast<std::size_t>(reading.step->value - 1);
            reading.step = twice.all.steps[twice.places[of]].number;
        }
        confirmed.emplace(Place{reading.measure, reading.step}, std::move(reading));
    }
    return confirmed;
}

/// Of each value that can be had by the coach's word alone, that one; the others stay unconfirmed.
/// Where all are asked for, those stay that come from all marks, and are confirmed where the
/// coach's word alone gives the same.
void takeConfirmed(std::vector<Reading>& readings, std::map<Place, Reading> confirmed,
                   bool unconfirmedToo)
{
    for (auto& reading : readings) {
        const auto found = confirmed.find({reading.measure, reading.step});
        if (found == confirmed.end()) {
            reading.confirmed = false;
        } else if (unconfirmedToo) {
            const auto& alone = found->second;
            reading.confirmed = alone.value == reading.value && alone.se == reading.se &&
                                alone.marksUsed == reading.marksUsed;
        } else {
            reading = std::move(found->second);
        }
    }
}

/// Contacts and step rate are judged with all that were found: one not confirmed yet is no fault.
bool goesByEvents(const Check& check)
{
    return check.check == "events" || check.check == "cadence";
}

/// Neither do good proposals hide what is wrong with the coach's own marks.
void takeWorse(std::vector<Check>& checks, const std::vector<Check>& ofCoach)
{
    for (auto& check : checks) {
        const auto alone = std::ranges::find(ofCoach, check.check, &Check::check);
        if (alone != ofCoach.end() && alone->value && alone->state > check.state &&
            !goesByEvents(check)) {
            check = *alone;
        }
    }
}

/// Why centimetres are not confirmed though all marks of a step are.
void tellScale(std::vector<Reading>& readings, const PreparedTwice& twice, const OwnMeasures& own)
{
    if (twice.confirmed->plane.hasScale() || !twice.all.plane.hasScale()) {
        return;
    }
    for (auto& reading : readings) {
        const auto* measure = own.find(reading.measure);
        if (reading.value && !reading.confirmed && measure && isLength(*measure)) {
            reading.reason += reading.reason.empty() ? "" : "; ";
            reading.reason += "its scale comes from marks that nobody confirmed";
        }
    }
}

} // namespace

Outcome<Readings> readingsOf(const MarkedClip& clip, bool unconfirmedToo, const OwnMeasures& own)
{
    ASSIGN_OR_RETURN(const auto twice, prepareTwice(clip));
    Readings result{.clip = twice.all.conditions,
                    .steps = twice.all.steps,
                    .readings = allRead(twice.all, own.all()),
                    .checks = checksOf(twice.all),
                    .summary = {},
                    .own = own,
                    .unconfirmedToo = unconfirmedToo && twice.confirmed};
    if (twice.confirmed) {
        takeConfirmed(result.readings, confirmedReadings(twice, own.all()), unconfirmedToo);
        takeWorse(result.checks, checksOf(*twice.confirmed));
        tellScale(result.readings, twice, own);
        if (!unconfirmedToo && twice.confirmed->plane.hasScale()) {
            result.clip.scaleFrom = twice.confirmed->conditions.scaleFrom;
        }
    }
    result.summary = summariesOf(result.readings, unconfirmedToo, own);
    return result;
}

} // namespace latemile
