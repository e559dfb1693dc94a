// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/leg_exchange.hpp"

#include "core/median.hpp"
#include "core/propose/stance_lines.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace latemile {

namespace {

constexpr std::array legPoints{Landmark::Knee, Landmark::Ankle, Landmark::Heel, Landmark::Toe};
constexpr std::size_t knee = 0; ///< among them
constexpr std::size_t ankle = 1;
constexpr double mostOfOnePoint = 0.6; ///< beyond, a point is plainly wrong and says no more
constexpr double shareOfVelocity = 0.25;
constexpr double costOfExchange = 0.2;
constexpr double costOfTornLeg = 0.2; ///< of knees exchanged without feet, or feet without knees
constexpr double costOfOtherStance = 1.0;
constexpr double clearMajority = 0.5; ///< three against one: left less right, by their sureness

struct Offset {
    double u{};
    double v{};
};
/// Both legs' points from the middle of the hips, in trunk lengths; left first.
using Legs = std::array<Offset, 2 * legPoints.size()>;

/// What may be exchanged on a frame: bit 0 the feet, bit 1 the knees.
using State = unsigned;
constexpr State states = 4;
constexpr bool feetExchanged(State state)
{
    return (state & 1U) != 0;
}
constexpr bool kneesExchanged(State state)
{
    return (state & 2U) != 0;
}

/// One frame, by its states.
struct LegsEveryWay {
    std::array<Legs, states> legs;
    std::array<double, states> cost{}; ///< of the frame by itself
};

double apart(const Offset& a, const Offset& b)
{
    return std::hypot(a.u - b.u, a.v - b.v);
}

LegsEveryWay legsOf(const BodyPoints& body, double trunk)
{
    LegsEveryWay every;
    const auto hip = body.midHip();
    const auto offset = [&](PixelPoint at) {
        return Offset{(at.u - hip.u) / trunk, (at.v - hip.v) / trunk};
    };
    for (State state = 0; state < states; ++state) {
        for (std::size_t k = 0; k < legPoints.size(); ++k) {
            auto left = offset(body.left(legPoints[k]).at);
            auto right = offset(body.right(legPoints[k]).at);
            if (k == knee ? kneesExchanged(state) : feetExchanged(state)) {
                std::swap(left, right);
            }
            every.legs[state][2 * k] = left;
            every.legs[state][2 * k + 1] = right;
        }
    }
    return every;
}

double shank(const Legs& legs, std::size_t side)
{
    return apart(legs[2 * knee + side], legs[2 * ankle + side]);
}

/// Most frames are as given, so the median is the shank's own.
double usualShank(const std::vector<LegsEveryWay>& frames)
{
    std::vector<double> lengths;
    for (const auto& frame : frames) {
        lengths.push_back(shank(frame.legs[0], 0));
        lengths.push_back(shank(frame.legs[0], 1));
    }
    return upperMedianOf(std::move(lengths));
}

double costByItself(const Legs& legs, State state, double usual)
{
    double cost = feetExchanged(state) ? costOfExchange : 0.0;
    cost += kneesExchanged(state) != feetExchanged(state) ? costOfTornLeg : 0.0;
    for (const std::size_t side : {0U, 1U}) {
        cost += std::min(std::abs(shank(legs, side) - usual), mostOfOnePoint);
    }
    return cost;
}

double costOf(const Legs& before, const Legs& last, const Legs& now)
{
    double cost = 0;
    for (std::size_t k = 0; k < now.size(); ++k) {
        const double acceleration = std::hypot(before[k].u - 2 * last[k].u + now[k].u,
                                               before[k].v - 2 * last[k].v + now[k].v);
        cost += std::min(acceleration, mostOfOnePoint) +
                shareOfVelocity * std::min(apart(now[k], last[k]), mostOfOnePoint);
    }
    return cost;
}

/// By the states of a frame and of the one after it: states * first + second.
using Costs = std::array<double, states * states>;

/// Of the moves to frame `t` (from 2 on) from the two before it, by the states of all three, the
/// first one's first.
using Moves = std::array<double, states * states * states>;

Moves movesTo(std::size_t t, const std::vector<LegsEveryWay>& frames)
{
    Moves moves{};
    for (State a = 0; a < states; ++a) {
        for (State b = 0; b < states; ++b) {
            for (State c = 0; c < states; ++c) {
                moves[(a * states + b) * states + c] =
                    costOf(frames[t - 2].legs[a], frames[t - 1].legs[b], frames[t].legs[c]);
            }
        }
    }
    return moves;
}

/// Least costs of a sequence by the states of a frame and the one before it, up to it (without the
/// costs that only frames behind it have) ...
std::vector<Costs> costsUpTo(const std::vector<LegsEveryWay>& frames,
                             const std::vector<Moves>& moves)
{
    std::vector<Costs> costs(frames.size());
    for (State a = 0; a < states; ++a) {
        for (State b = 0; b < states; ++b) {
            costs[1][a * states + b] = frames[0].cost[a] + frames[1].cost[b];
        }
    }
    for (std::size_t t = 2; t < frames.size(); ++t) {
        costs[t].fill(std::numeric_limits<double>::infinity());
        for (State abc = 0; abc < moves[t].size(); ++abc) {
            const State bc = abc % (states * states);
            const double cost =
                costs[t - 1][abc / states] + moves[t][abc] + frames[t].cost[abc % states];
            costs[t][bc] = std::min(costs[t][bc], cost);
        }
    }
    return costs;
}

/// ... and from it on.
std::vector<Costs> costsBehind(const std::vector<LegsEveryWay>& frames,
                               const std::vector<Moves>& moves)
{
    std::vector<Costs> costs(frames.size());
    costs.back().fill(0.0);
    for (std::size_t t = frames.size() - 1; t >= 2; --t) {
        costs[t - 1].fill(std::numeric_limits<double>::infinity());
        for (State abc = 0; abc < moves[t].size(); ++abc) {
            const State ab = abc / states;
            const double cost =
                costs[t][abc % (states * states)] + moves[t][abc] + frames[t].cost[abc % states];
            costs[t - 1][ab] = std::min(costs[t - 1][ab], cost);
        }
    }
    return costs;
}

/// The least cost of all sequences with each state of frame `t`.
std::array<double, states> leastCosts(std::size_t t, const std::vector<Costs>& upTo,
                                      const std::vector<Costs>& behind)
{
    std::array<double, states> least{};
    least.fill(std::numeric_limits<double>::infinity());
    const std::size_t pair = std::max<std::size_t>(t, 1); // the first frame is part of the second's
    for (State ab = 0; ab < states * states; ++ab) {
        const State state = t == 0 ? ab / states : ab % states;
        least[state] = std::min(least[state], upTo[pair][ab] + behind[pair][ab]);
    }
    return least;
}

LegsSeen seenBy(const std::array<double, states>& least)
{
    const auto best =
        static_cast<State>(std::min_element(least.begin(), least.end()) - least.begin());
    const State other = best ^ 1U;
    const double otherFeet = std::min(least[other], least[other ^ 2U]);
    return {.kneesExchanged = kneesExchanged(best),
            .feetExchanged = feetExchanged(best),
            .sureness = otherFeet - least[best]};
}

std::vector<LegsSeen> searched(const std::vector<LegsEveryWay>& frames,
                               const std::vector<Moves>& moves)
{
    const auto upTo = costsUpTo(frames, moves);
    const auto behind = costsBehind(frames, moves);
    std::vector<LegsSeen> seen;
    for (std::size_t t = 0; t < frames.size(); ++t) {
        seen.push_back(seenBy(leastCosts(t, upTo, behind)));
    }
    return seen;
}

bool isOfLeftLeg(FootSeen foot, bool feetAreExchanged)
{
    return foot.isLeft != feetAreExchanged;
}

/// Whether the foot of a stance is the left one, by what was told of its frames; nothing where
/// these contradict each other.
std::optional<bool> isLeftFoot(const StanceLine& line, const std::vector<LegsSeen>& seen)
{
    double leftness = 0;
    double all = 0;
    for (const auto& foot : line) {
        const auto& legs = seen[foot.body];
        leftness += isOfLeftLeg(foot, legs.feetExchanged) ? legs.sureness : -legs.sureness;
        all += legs.sureness;
    }
    return std::abs(leftness) >= clearMajority * all ? std::optional(leftness > 0) : std::nullopt;
}

/// Makes each frame of a stance on which its foot is called the other one cost more.
void keepToStances(std::vector<LegsEveryWay>& frames, const std::vector<StanceLine>& lines,
                   const std::vector<LegsSeen>& seen)
{
    for (const auto& line : lines) {
        const auto isLeft = isLeftFoot(line, seen);
        if (!isLeft) {
            continue;
        }
        for (const auto& foot : line) {
            for (State state = 0; state < states; ++state) {
                if (isOfLeftLeg(foot, feetExchanged(state)) != *isLeft) {
                    frames[foot.body].cost[state] += costOfOtherStance;
                }
            }
        }
    }
}

/// What the second search tells; unsure where the first told the feet otherwise.
std::vector<LegsSeen> together(const std::vector<LegsSeen>& first, std::vector<LegsSeen> second)
{
    for (std::size_t t = 0; t < second.size(); ++t) {
        if (first[t].feetExchanged != second[t].feetExchanged) {
            second[t].sureness = 0.0;
        }
    }
    return second;
}

} // namespace

std::vector<LegsSeen> legsSeen(std::span<const BodyPoints> bodies, std::span<const Seconds> times)
{
    const std::size_t count = bodies.size();
    if (count < 3) {
        return std::vector<LegsSeen>(count);
    }
    const double trunk = trunkLength(bodies);
    std::vector<LegsEveryWay> frames;
    for (const auto& body : bodies) {
        frames.push_back(legsOf(body, trunk));
    }
    const double usual = usualShank(frames);
    for (auto& frame : frames) {
        for (State state = 0; state < states; ++state) {
            frame.cost[state] = costByItself(frame.legs[state], state, usual);
        }
    }
    std::vector<Moves> moves(count);
    for (std::size_t t = 2; t < count; ++t) {
        moves[t] = movesTo(t, frames);
    }
    const auto seen = searched(frames, moves);
    keepToStances(frames, stanceLines(bodies, times), seen);
    return together(seen, searched(frames, moves));
}

} // namespace latemile
