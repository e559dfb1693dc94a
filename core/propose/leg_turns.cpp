// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/leg_turns.hpp"

#include "core/propose/row_bound.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

namespace latemile {

namespace {

constexpr std::array legPoints{Landmark::Knee, Landmark::Ankle, Landmark::Heel, Landmark::Toe};

/// By so much, all points of both legs together, must the other leg continue the frame before
/// better. Where the legs pass each other either would do and nothing is told.
constexpr double clearlyInTrunks = 0.5;

bool isExchanged(const LegTurns& turns, FrameNumber frame)
{
    return std::distance(turns.begin(), turns.upper_bound(frame)) % 2 != 0;
}

void toggle(LegTurns& turns, FrameNumber at)
{
    if (turns.erase(at) == 0) {
        turns.insert(at);
    }
}

double apart(const Mark& a, const Mark& b)
{
    return std::hypot(a.at.u - b.at.u, a.at.v - b.at.v);
}

/// By how much the way of both legs from one frame to the next is shorter with the legs of the
/// latter exchanged, pixels; points that are not marked on both sides of both frames are left out.
double shorterExchanged(const Marking& marking, FrameNumber before, FrameNumber now)
{
    double shorter = 0;
    for (const auto landmark : legPoints) {
        const Mark* near0 = marking.find({before, BodySide::Near, landmark});
        const Mark* far0 = marking.find({before, BodySide::Far, landmark});
        const Mark* near1 = marking.find({now, BodySide::Near, landmark});
        const Mark* far1 = marking.find({now, BodySide::Far, landmark});
        if (near0 != nullptr && far0 != nullptr && near1 != nullptr && far1 != nullptr) {
            shorter += apart(*near0, *near1) + apart(*far0, *far1) - apart(*near0, *far1) -
                       apart(*far0, *near1);
        }
    }
    return shorter;
}

std::optional<FrameNumber> nextJump(const Marking& marking, FrameNumber from)
{
    const double clearly = clearlyInTrunks * trunkPx(marking);
    std::optional<FrameNumber> before;
    for (auto it = marking.marks.lower_bound({from, BodySide{}, Landmark{}});
         it != marking.marks.end();
         it = marking.marks.lower_bound({{it->first.frame.value + 1}, BodySide{}, Landmark{}})) {
        const FrameNumber now = it->first.frame;
        if (before && shorterExchanged(marking, *before, now) > clearly) {
            return now;
        }
        before = now;
    }
    return std::nullopt;
}

} // namespace

LegTurns withExchange(LegTurns turns, FrameNumber from, std::optional<FrameNumber> to)
{
    toggle(turns, from);
    if (to) {
        toggle(turns, *to);
    }
    return turns;
}

void exchangeLegs(BodyPaths& paths, const LegTurns& turns)
{
    for (const auto landmark : legPoints) {
        auto& near = paths.paths.at({BodySide::Near, landmark});
        auto& far = paths.paths.at({BodySide::Far, landmark});
        for (std::size_t k = 0; k < paths.frames.size(); ++k) {
            if (isExchanged(turns, paths.frames[k])) {
                std::swap(near.at[k], far.at[k]);
                std::swap(near.peak[k], far.peak[k]);
                std::swap(near.doubt[k], far.doubt[k]);
            }
        }
    }
}

std::optional<FrameNumber> endOfExchange(const Marking& marking, const LegTurns& turns,
                                         FrameNumber from)
{
    const auto turn = turns.upper_bound(from);
    const auto jump = nextJump(marking, from);
    if (turn != turns.end() && (!jump || *turn < *jump)) {
        return *turn;
    }
    return jump;
}

std::map<MarkKey, std::optional<Mark>> exchangedLegMarks(const Marking& marking, FrameNumber from,
                                                         std::optional<FrameNumber> to)
{
    std::map<MarkKey, std::optional<Mark>> changes;
    for (auto it = marking.marks.lower_bound({from, BodySide{}, Landmark{}});
         it != marking.marks.end() && (!to || it->first.frame < *to); ++it) {
        const MarkKey key = it->first;
        const bool isOfLegs = std::ranges::find(legPoints, key.landmark) != legPoints.end() &&
                              (key.side == BodySide::Near || key.side == BodySide::Far);
        const MarkKey other{key.frame, key.side == BodySide::Near ? BodySide::Far : BodySide::Near,
                            key.landmark};
        const Mark* there = marking.find(other);
        const bool isPlaced = it->second.origin == Origin::Placed ||
                              (there != nullptr && there->origin == Origin::Placed);
        if (isOfLegs && !isPlaced) {
            changes[other] = it->second;
            changes.try_emplace(key, std::nullopt);
        }
    }
    return changes;
}

} // namespace latemile
