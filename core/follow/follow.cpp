// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/follow.hpp"

#include "core/follow/followed_path.hpp"
#include "core/follow/path_finish.hpp"
#include "core/follow/placed_figures.hpp"
#include "core/follow/recurrence.hpp"

#include <algorithm>
#include <array>
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

    [[nodiscard]] FigureSeeds seedsOf(const PlacedSide& side) const;
    void addAlike(FigureSeeds& seeds, std::int64_t frame, const Figure& placed) const;
    [[nodiscard]] cv::Rect2d around(const Figure& figure) const;
    void collect(const MarkKey& of, const FollowedPath& path, const Marking& marking,
                 FollowResult& result) const;
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
            const Seed seed{*carried.at[i], flow * flow + change * change, frame, false};
            auto [there, isNew] =
                seeds[i].try_emplace(alike.frame.value - pictures.first().value, seed);
            if (!isNew && !there->second.isPlaced && seed.variance < there->second.variance) {
                there->second = seed;
            }
        }
    }
}

FigureSeeds Follower::Inside::seedsOf(const PlacedSide& side) const
{
    FigureSeeds seeds;
    for (const auto& [frame, figure] : side.placed) {
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (figure[i]) {
                seeds[i][frame - pictures.first().value] = {pictures.reduced(*figure[i]), 0.0,
                                                            frame, true};
            }
        }
    }
    for (const auto& [frame, figure] : side.placed) {
        addAlike(seeds, frame, figure);
    }
    return seeds;
}

namespace {

/// Joins single frames of one kind to stretches.
class Gaps {
public:
    Gaps(std::vector<FollowGap>& list, BodySide side, Landmark landmark)
        : m_list(list), m_side(side), m_landmark(landmark)
    {
    }
    void add(FollowGap::Kind kind, FrameNumber frame)
    {
        const bool goesOn =
            m_open && m_list.back().kind == kind && m_list.back().last.value + 1 == frame.value;
        if (goesOn) {
            m_list.back().last = frame;
        } else {
            m_list.push_back({kind, m_side, m_landmark, frame, frame});
            m_open = true;
        }
    }

private:
    std::vector<FollowGap>& m_list;
    BodySide m_side;
    Landmark m_landmark;
    bool m_open{};
};

/// Error of the placed mark a followed one hangs on, pixels of the upright picture.
double clickErrorPx(const Marking& marking, const MarkKey& key, const ClickErrors& clicks,
                    double pixelsPerCm)
{
    const auto* mark = marking.find(key);
    if (mark && mark->sePx) {
        return *mark->sePx;
    }
    return std::max(0.5, clicks.of(key.landmark) * pixelsPerCm);
}

} // namespace

std::string_view nameOf(FollowGap::Kind kind)
{
    constexpr std::array<std::string_view, 3> names{"lost", "bridged", "doubtful"};
    return names[static_cast<std::size_t>(kind)];
}

std::string sentenceOf(const FollowGap& gap)
{
    constexpr std::array<std::string_view, 3> said{"was lost", "was covered and bridged",
                                                   "is doubtful"};
    auto words = "The " + std::string(nameOf(gap.side)) + " " + std::string(nameOf(gap.landmark)) +
                 " " + std::string(said[static_cast<std::size_t>(gap.kind)]) + " on frame";
    words += gap.first == gap.last
                 ? " " + std::to_string(gap.first.value)
                 : "s " + std::to_string(gap.first.value) + " to " + std::to_string(gap.last.value);
    return words + ".";
}

/// The followed marks of one landmark, and where it could not be followed.
void Follower::Inside::collect(const MarkKey& of, const FollowedPath& path, const Marking& marking,
                               FollowResult& result) const
{
    Gaps gaps(result.gaps, of.side, of.landmark);
    const double clickScale = pictures.pixelsPerCm() / pictures.reduction();
    for (std::size_t f = 0; f < path.size(); ++f) {
        auto key = of;
        key.frame.value = pictures.first().value + static_cast<std::int64_t>(f);
        const auto* there = marking.find(key);
        if (there && there->origin == Origin::Placed) {
            continue;
        }
        const auto& point = path[f];
        if (!point) {
            gaps.add(FollowGap::Kind::Lost, key.frame);
            continue;
        }
        if (point->isDoubtful || point->isBridged) {
            gaps.add(point->isBridged ? FollowGap::Kind::Bridged : FollowGap::Kind::Doubtful,
                     key.frame);
        }
        const double click = clickErrorPx(marking, {{point->origin}, of.side, of.landmark},
                                          options.clicks, clickScale);
        const double flow = std::sqrt(point->variance) / pictures.reduction();
        result.marks[key] =
            Mark{pictures.upright(point->at), Origin::Followed, std::hypot(click, flow)};
    }
}

Outcome<FollowResult> Follower::follow(const Marking& marking) const
{
    const auto& inside = *m_inside;
    const auto sides = placedSides(marking, inside.pictures.first(), inside.pictures.last());
    FollowResult result;
    double done = 0.0;
    const auto goOn = [&](double share) {
        const double part = (done + share) / static_cast<double>(sides.size());
        return !inside.options.goOn ||
               inside.options.goOn(readingShare + (1.0 - readingShare) * part);
    };
    for (const auto& side : sides) {
        const auto seeds = inside.seedsOf(side);
        auto paths = followFigure(inside.pictures, inside.times, seeds, goOn);
        if (!paths) {
            return fail(Error::Kind::Cancelled, "Following was stopped; nothing was changed.");
        }
        done += 1.0;
        doubtBrokenBones(*paths);
        for (std::size_t i = 0; i < landmarkCount; ++i) {
            if (!seeds[i].empty()) {
                auto& path = (*paths)[i];
                bridgeGaps(path, inside.times, inside.pictures.pixelsPerCm());
                smoothPath(path, inside.times);
                inside.collect({{}, side.side, static_cast<Landmark>(i)}, path, marking, result);
            }
        }
    }
    return result;
}

Outcome<FollowResult> followMarks(ClipReader& clip, const Marking& marking,
                                  const FollowOptions& options)
{
    ASSIGN_OR_RETURN(const auto follower, Follower::open(clip, marking, options));
    return follower.follow(marking);
}

} // namespace latemile
