// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/end_seeds.hpp"

#include "core/follow/flow_record.hpp"
#include "core/follow/straight_carry.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace latemile {

namespace {

constexpr double nearSeed = 0.05; ///< s; so short a drift is left to following

std::set<std::int64_t> seededFrames(const FigureSeeds& seeds)
{
    std::set<std::int64_t> frames;
    for (const auto& ofLandmark : seeds) {
        for (const auto& [frame, seed] : ofLandmark) {
            frames.insert(frame);
        }
    }
    return frames;
}

ReducedFigure figureOn(const FigurePaths& paths, std::int64_t frame)
{
    ReducedFigure figure;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        const auto& point = paths[i][static_cast<std::size_t>(frame)];
        if (point && !point->isDoubtful) {
            figure[i] = point->at;
        }
    }
    return figure;
}

/// Roughly where the runner is on the end: over ground she moves on.
ReducedFigure figureFollowedTo(std::int64_t end, std::int64_t outermost, const FigureSeeds& seeds,
                               const RunnerPictures& pictures, const std::vector<double>& times)
{
    const FrameSpan span{std::min(end, outermost), std::max(end, outermost)};
    const auto followed = followFigure(pictures, times, seeds, span);
    return followed ? figureOn(followed->paths, end) : ReducedFigure{};
}

/// The seeded frames on both sides of one.
std::optional<FrameSpan> between(const std::set<std::int64_t>& seeded, std::int64_t frame)
{
    const auto after = seeded.lower_bound(frame);
    const auto before = seeded.upper_bound(frame);
    if (after == seeded.end() || before == seeded.begin()) {
        return std::nullopt;
    }
    return FrameSpan{*std::prev(before), *after};
}

/// The one nearest to the end that it is alike.
const Recurrence& nearestTo(std::int64_t end, const std::vector<Recurrence>& alike)
{
    return *std::ranges::min_element(
        alike, {}, [end](const Recurrence& one) { return std::abs(one.frame.value - end); });
}

/// From frame `inside`, on which the landmarks' places are known by `paths`, to the end.
void carryToEnd(FigureSeeds& seeds, const FigurePaths& paths, const RunnerPictures& pictures,
                std::int64_t inside, const Recurrence& end)
{
    const auto first = pictures.first().value;
    const auto carried = carriedStraight(pictures, {first + inside}, figureOn(paths, inside), end);
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        if (const auto& at = carried.figure.at[i]) {
            const auto& from = *paths[i][static_cast<std::size_t>(inside)];
            seeds[i].try_emplace(end.frame.value - first,
                                 Seed{*at, from.variance + carried.variance[i], from.origin, false,
                                      from.clickVariance});
        }
    }
}

} // namespace

void addEndSeeds(FigureSeeds& seeds, const RunnerPictures& pictures,
                 const std::vector<double>& times, const StrideRecurrences& strides)
{
    const auto seeded = seededFrames(seeds);
    if (seeded.empty()) {
        return;
    }
    const auto first = pictures.first().value;
    const auto last = static_cast<std::int64_t>(times.size()) - 1;
    for (const auto& [end, outermost] :
         {std::pair{std::int64_t{0}, *seeded.begin()}, std::pair{last, *seeded.rbegin()}}) {
        const double gap = std::abs(times[static_cast<std::size_t>(end)] -
                                    times[static_cast<std::size_t>(outermost)]);
        if (gap < nearSeed || gap > longestAlone) {
            continue;
        }
        const auto there = figureFollowedTo(end, outermost, seeds, pictures, times);
        if (std::ranges::none_of(there, [](const auto& point) { return point.has_value(); })) {
            continue;
        }
        const auto around = surroundings(there, pictures.pixelsPerCm());
        const auto alike = strides.of({first + end}, around);
        if (alike.empty()) {
            continue;
        }
        const auto& inside = nearestTo(first + end, alike);
        const auto span = between(seeded, inside.frame.value - first);
        if (!span) {
            continue;
        }
        if (const auto known = followFigure(pictures, times, seeds, *span)) {
            carryToEnd(seeds, known->paths, pictures, inside.frame.value - first,
                       {{first + end}, -inside.shift, inside.likeness});
        }
    }
}

} // namespace latemile
