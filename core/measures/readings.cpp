// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/readings.hpp"

#include "core/measures/checks.hpp"
#include "core/measures/step_readings.hpp"
#include "core/measures/summaries.hpp"

#include <algorithm>
#include <atomic>
#include <iterator>
#include <thread>

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

} // namespace

Outcome<Readings> readingsOf(const MarkedClip& clip, bool unconfirmedToo, const OwnMeasures& own)
{
    ASSIGN_OR_RETURN(const auto prepared, prepare(clip));
    Readings result{.clip = prepared.conditions,
                    .steps = prepared.steps,
                    .readings = {},
                    .checks = checksOf(prepared),
                    .summary = {},
                    .own = own};
    for (auto& readings : eachRead(prepared, own.all())) {
        std::ranges::move(readings, std::back_inserter(result.readings));
    }
    result.summary = summariesOf(result.readings, unconfirmedToo, own);
    return result;
}

} // namespace latemile
