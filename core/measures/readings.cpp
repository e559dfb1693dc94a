// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/readings.hpp"

#include "core/measures/checks.hpp"
#include "core/measures/step_readings.hpp"
#include "core/measures/summaries.hpp"

#include <iterator>

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

Outcome<Readings> readingsOf(const MarkedClip& clip, bool unconfirmedToo, const OwnMeasures& own)
{
    ASSIGN_OR_RETURN(const auto prepared, prepare(clip));
    Readings result{.clip = prepared.conditions,
                    .steps = prepared.steps,
                    .readings = {},
                    .checks = checksOf(prepared),
                    .summary = {},
                    .own = own};
    for (const auto* measure : own.all()) {
        std::ranges::move(readingsOfMeasure(prepared, *measure),
                          std::back_inserter(result.readings));
    }
    result.summary = summariesOf(result.readings, unconfirmedToo, own);
    return result;
}

} // namespace latemile
