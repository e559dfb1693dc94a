// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/followed_flow.hpp"

#include "core/follow/flow_inside.hpp"
#include "core/follow/path_finish.hpp"
#include "core/follow/path_marks.hpp"

#include <algorithm>
#include <iterator>

namespace latemile {

namespace {

/// The frames around one up to the neighbouring seeds, which stay as they are.
struct Stretch {
    std::int64_t first{};
    std::int64_t last{};
};

/// A seed on the outermost frame that was not placed hangs on what is farther inside, and goes with
/// it.
Stretch stretchAround(const Seeds& seeds, std::int64_t frame, std::int64_t frames)
{
    const auto after = seeds.upper_bound(frame);
    const auto here = seeds.lower_bound(frame);
    const auto isEnd = [frames](const auto& seed) {
        return !seed.second.isPlaced && (seed.first == 0 || seed.first == frames - 1);
    };
    return {here == seeds.begin() || isEnd(*std::prev(here)) ? 0 : std::prev(here)->first + 1,
            after == seeds.end() || isEnd(*after) ? frames - 1 : after->first - 1};
}

/// What hangs on a mark that was moved moves along; what hangs on one taken away goes with it.
Seeds seedsNow(const FollowedFlow::Inside& inside, const FollowedSide& side, Landmark landmark,
               const Marking& marking)
{
    const auto& then = side.seeds[placeOf(landmark)];
    const auto first = inside.map.first.value;
    std::map<std::int64_t, Seed> placed; // by frame of the clip
    for (const auto& [key, mark] : marking.marks) {
        if (key.side == side.side && key.landmark == landmark && mark.origin == Origin::Placed &&
            inside.contains(key.frame)) {
            placed[key.frame.value] = {inside.map.reduced(mark.at), 0.0, key.frame.value, true,
                                       clickVariance(marking, key, inside.clicks, inside.map)};
        }
    }
    Seeds now;
    for (const auto& [frame, seed] : then) {
        const auto source = placed.find(seed.origin);
        const auto was = then.find(seed.origin - first);
        if (!seed.isPlaced && source != placed.end() && was != then.end()) {
            now[frame] = seed;
            now[frame].at += source->second.at - was->second.at;
            now[frame].clickVariance = source->second.clickVariance;
        }
    }
    for (const auto& [frame, seed] : placed) {
        now[frame - first] = seed;
    }
    return now;
}

} // namespace

FollowedFlow::FollowedFlow(std::unique_ptr<const Inside> inside) : m_inside(std::move(inside)) {}
FollowedFlow::~FollowedFlow() = default;

bool FollowedFlow::Inside::contains(FrameNumber frame) const
{
    return frame >= map.first &&
           frame.value < map.first.value + static_cast<std::int64_t>(times.size());
}

std::map<MarkKey, std::optional<Mark>>
FollowedFlow::followedAnew(const Marking& marking, const std::set<MarkKey>& changed) const
{
    const auto& inside = *m_inside;
    std::map<MarkKey, std::optional<Mark>> anew;
    const auto frames = static_cast<std::int64_t>(inside.times.size());
    for (const auto& side : inside.sides) {
        std::set<Landmark> landmarks;
        for (const auto& key : changed) {
            if (key.side == side.side && inside.contains(key.frame)) {
                landmarks.insert(key.landmark);
            }
        }
        if (landmarks.empty()) {
            continue;
        }
        auto seeds = side.seeds;
        for (const auto landmark : landmarks) {
            seeds[placeOf(landmark)] = seedsNow(inside, side, landmark, marking);
        }
        auto paths = replayed(side.flow, inside.times, seeds, inside.map.pixelsPerCm);
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (!landmarks.contains(static_cast<Landmark>(i))) {
                seeds[i].clear(); // its path was needed to judge bones, and is not asked for
            }
        }
        FollowResult result;
        for (const auto& [landmark, path] :
             finishedPaths(std::move(paths), seeds, inside.times, inside.map.pixelsPerCm)) {
            addPath(result, side.side, landmark, path, inside.map, marking);
        }
        for (const auto& key : changed) {
            if (key.side != side.side || !inside.contains(key.frame)) {
                continue;
            }
            const auto [first, last] = stretchAround(
                seeds[placeOf(key.landmark)], key.frame.value - inside.map.first.value, frames);
            for (auto f = first; f <= last; ++f) {
                const MarkKey at{{inside.map.first.value + f}, side.side, key.landmark};
                const auto found = result.marks.find(at);
                anew[at] =
                    found == result.marks.end() ? std::nullopt : std::optional(found->second);
            }
        }
    }
    return anew;
}

} // namespace latemile
