// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/follow.hpp"

#include "core/follow/flow_inside.hpp"
#include "core/follow/path_finish.hpp"
#include "core/follow/path_marks.hpp"
#include "core/follow/placed_figures.hpp"
#include "core/follow/recurrence.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

/// Share of the work that reading the pictures is, for the progress told.
constexpr double readingShare = 0.5;
/// Error of carrying a mark straight to another stride: the flow's spread over the points of a
/// part, of which so many are independent, and what differs between two strides (cm, per axis;
/// fitted on modelled runners).
constexpr double strideChangeCm = 0.15;
constexpr double flowShare = 0.35;

} // namespace

struct Follower::Inside {
    RunnerPictures pictures;
    std::vector<double> times; ///< one a frame of the stretch
    StrideRecurrences strides;
    FollowOptions options;

    [[nodiscard]] FigureSeeds seedsOf(const PlacedSide& side, const Marking& marking) const;
    void addAlike(FigureSeeds& seeds, std::int64_t frame, const Figure& placed) const;
    [[nodiscard]] cv::Rect2d around(const Figure& figure) const;
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

cv::Rect2d Follower::Inside::around(const Figure& figure) const
{
    cv::Point2d least(1e9, 1e9);
    cv::Point2d most(-1e9, -1e9);
    for (const auto& point : figure) {
        if (point) {
            const auto at = pictures.reduced(*point);
            least = {std::min(least.x, at.x), std::min(least.y, at.y)};
            most = {std::max(most.x, at.x), std::max(most.y, at.y)};
        }
    }
    const double margin = 20.0 * pictures.pixelsPerCm();
    return {least.x - margin, least.y - margin, most.x - least.x + 2.0 * margin,
            most.y - least.y + 2.0 * margin};
}

/// From the frame with placed marks straight to every frame on which the runner stands alike.
void Follower::Inside::addAlike(FigureSeeds& seeds, std::int64_t frame, const Figure& placed) const
{
    const FrameNumber from{frame};
    const auto figure = reducedFigure(placed, pictures);
    for (const auto& alike : strides.of(from, around(placed))) {
        ReducedFigure guess = figure;
        for (auto& point : guess) {
            if (point) {
                *point += alike.shift;
            }
        }
        const auto carried = carryFigure(pictures, from, figure, alike.frame, guess,
                                         looksOf(pictures, from, figure), Search::Wide);
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (!carried.at[i]) {
                continue;
            }
            const double flow = flowShare * carried.spread[i];
            const double change = strideChangeCm * pictures.pixelsPerCm();
            const auto origin = seeds[i].find(frame - pictures.first().value);
            const Seed seed{*carried.at[i], flow * flow + change * change, frame, false,
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
        auto followed = followFigure(inside.pictures, inside.times, seeds, goOn);
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
