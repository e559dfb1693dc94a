// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/follow.hpp"

#include "core/follow/end_seeds.hpp"
#include "core/follow/flow_inside.hpp"
#include "core/follow/path_finish.hpp"
#include "core/follow/path_marks.hpp"
#include "core/follow/placed_figures.hpp"
#include "core/follow/recurrence.hpp"
#include "core/follow/straight_carry.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// Share of the work that reading the pictures is, for the progress told.
constexpr double readingShare = 0.5;

} // namespace

struct Follower::Inside {
    RunnerPictures pictures;
    std::vector<double> times; ///< one a frame of the stretch
    StrideRecurrences strides;
    FollowOptions options;

    [[nodiscard]] FigureSeeds seedsOf(const PlacedSide& side, const Marking& marking) const;
    void addAlike(FigureSeeds& seeds, std::int64_t frame, const Figure& placed) const;
};

Follower::Follower(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
Follower::Follower(Follower&&) noexcept = default;
Follower& Follower::operator=(Follower&&) noexcept = default;
Follower::~Follower() = default;

Outcome<Follower> Follower::open(ClipReader& clip, const Marking& marking,
                                 const FollowOptions& options)
{
    const auto first = options.first.value_or(FrameNumber{0});
    const auto last = options.last.value_or(FrameNumber{clip.index().size() - 1});
    if (!clip.index().contains(first) || !clip.index().contains(last) || last < first) {
        return fail(Error::Kind::NotFound, "The clip has no frames " + std::to_string(first.value) +
                                               " to " + std::to_string(last.value) + ".");
    }
    const auto sides = placedSides(marking, first, last);
    if (sides.empty()) {
        return fail(Error::Kind::Inconsistent,
                    "There is no placed mark to follow from: mark one step first.");
    }
    const auto stretch = stretchFor(sides, first, last, clip.facts());
    const auto reading = [&](double share) {
        return !options.goOn || options.goOn(readingShare * share);
    };
    ASSIGN_OR_RETURN(auto pictures, RunnerPictures::read(clip, stretch, reading));
    std::vector<double> times;
    for (auto i = first; i <= last; ++i.value) {
        times.push_back(clip.index().time(i).count());
    }
    StrideRecurrences strides(pictures, times);
    return Follower(std::make_unique<Inside>(
        Inside{std::move(pictures), std::move(times), std::move(strides), options}));
}

/// From the frame with placed marks straight to every frame on which the runner stands alike.
void Follower::Inside::addAlike(FigureSeeds& seeds, std::int64_t frame, const Figure& placed) const
{
    const FrameNumber from{frame};
    const auto figure = reducedFigure(placed, pictures);
    for (const auto& alike : strides.of(from, surroundings(figure, pictures.pixelsPerCm()))) {
        const auto carried = carriedStraight(pictures, from, figure, alike);
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (!carried.figure.at[i]) {
                continue;
            }
            const auto origin = seeds[i].find(frame - pictures.first().value);
            const Seed seed{*carried.figure.at[i], carried.variance[i], frame, false,
                            origin->second.clickVariance};
            auto [there, isNew] =
                seeds[i].try_emplace(alike.frame.value - pictures.first().value, seed);
            if (!isNew && !there->second.isPlaced && seed.variance < there->second.variance) {
                there->second = seed;
            }
        }
    }
}

FigureSeeds Follower::Inside::seedsOf(const PlacedSide& side, const Marking& marking) const
{
    FigureSeeds seeds;
    for (const auto& [frame, figure] : side.placed) {
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (figure[i]) {
                const MarkKey key{{frame}, side.side, static_cast<Landmark>(i)};
                seeds[i][frame - pictures.first().value] = {
                    pictures.reduced(*figure[i]), 0.0, frame, true,
                    clickVariance(marking, key, options.clicks, pictures.map())};
            }
        }
    }
    for (const auto& [frame, figure] : side.placed) {
        addAlike(seeds, frame, figure);
    }
    addEndSeeds(seeds, pictures, times, strides);
    return seeds;
}

Outcome<FollowResult> Follower::follow(const Marking& marking) const
{
    const auto& inside = *m_inside;
    const auto sides = placedSides(marking, inside.pictures.first(), inside.pictures.last());
    auto flow = std::make_unique<FollowedFlow::Inside>(
        FollowedFlow::Inside{inside.pictures.map(), inside.times, inside.options.clicks, {}});
    FollowResult result;
    double done = 0.0;
    const auto goOn = [&](double share) {
        const double part = (done + share) / static_cast<double>(sides.size());
        return !inside.options.goOn ||
               inside.options.goOn(readingShare + (1.0 - readingShare) * part);
    };
    for (const auto& side : sides) {
        auto seeds = inside.seedsOf(side, marking);
        const FrameSpan all{0, static_cast<std::int64_t>(inside.times.size()) - 1};
        auto followed = followFigure(inside.pictures, inside.times, seeds, all, goOn);
        if (!followed) {
            return fail(Error::Kind::Cancelled, "Following was stopped; nothing was changed.");
        }
        done += 1.0;
        for (const auto& [landmark, path] : finishedPaths(
                 std::move(followed->paths), seeds, inside.times, inside.pictures.pixelsPerCm())) {
            addPath(result, side.side, landmark, path, inside.pictures.map(), marking);
        }
        flow->sides.push_back({side.side, std::move(seeds), std::move(followed->flow)});
    }
    result.flow = std::make_shared<const FollowedFlow>(std::move(flow));
    return result;
}

Outcome<FollowResult> followMarks(ClipReader& clip, const Marking& marking,
                                  const FollowOptions& options)
{
    ASSIGN_OR_RETURN(const auto follower, Follower::open(clip, marking, options));
    return follower.follow(marking);
}

} // namespace latemile
