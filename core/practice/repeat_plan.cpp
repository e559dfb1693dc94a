// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/practice/repeat_plan.hpp"

#include <algorithm>
#include <random>

namespace latemile {

namespace {

/// The near marks of a frame; none where one of them was not placed.
std::set<MarkKey> placedOn(const Marking& marking, FrameNumber frame)
{
    std::set<MarkKey> placed;
    for (const auto& [key, mark] : marking.marks) {
        if (key.frame != frame || key.side == BodySide::Far) {
            continue;
        }
        if (mark.origin != Origin::Placed) {
            return {};
        }
        placed.insert(key);
    }
    return placed;
}

std::vector<RepeatCell> cellsOf(const Marking& marking, const FrameIndex& index)
{
    std::vector<RepeatCell> cells;
    std::set<FrameNumber> seen;
    for (const auto& step : stepsOf(marking.stances, index)) {
        for (const auto instant : instantsInOrder) {
            const auto frame = frameOf(step, instant, index);
            if (!frame || !seen.insert(*frame).second) {
                continue;
            }
            auto asked = placedOn(marking, *frame);
            if (!asked.empty()) {
                cells.push_back({step.number, instant, *frame, std::move(asked)});
            }
        }
    }
    return cells;
}

} // namespace

std::vector<RepeatCell> repeatPlan(const Marking& marking, const FrameIndex& index,
                                   std::size_t most, std::uint64_t seed)
{
    const auto cells = cellsOf(marking, index);
    std::mt19937_64 random(seed);
    std::vector<RepeatCell> plan;
    if (cells.size() <= most) {
        plan = cells;
    } else {
        // One at random from each of `most` equal stretches of the clip.
        for (std::size_t i = 0; i < most; ++i) {
            const auto from = i * cells.size() / most;
            const auto to = (i + 1) * cells.size() / most;
            std::uniform_int_distribution<std::size_t> within(from, to - 1);
            plan.push_back(cells[within(random)]);
        }
    }
    std::shuffle(plan.begin(), plan.end(), random);
    return plan;
}

Marking blankFor(const Marking& marking)
{
    Marking blank;
    blank.stances = marking.stances;
    return blank;
}

} // namespace latemile
