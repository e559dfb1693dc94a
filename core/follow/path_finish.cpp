// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/path_finish.hpp"

#include "core/follow/gap_fill.hpp"
#include "core/follow/low_pass.hpp"
#include "core/follow/residual_cutoff.hpp"
#include "core/median.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double unseenAcceleration = 2000.0; ///< cm/s²
constexpr std::size_t knotsAtEnd = 3;
constexpr double oddLength = 0.15; ///< share of a bone's usual length
constexpr double evenness = 0.1;   ///< share by which frame intervals may differ

struct Run {
    std::size_t first{};
    std::size_t end{}; ///< one past the last
};

/// Stretches of frames with points, in order.
std::vector<Run> runsOf(const FollowedPath& path)
{
    std::vector<Run> runs;
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (!path[i]) {
            continue;
        }
        if (runs.empty() || runs.back().end != i) {
            runs.push_back({i, i});
        }
        runs.back().end = i + 1;
    }
    return runs;
}

void bridgeBetween(FollowedPath& path, const std::vector<double>& times, const Run& before,
                   const Run& after, double pixelsPerCm)
{
    std::vector<double> t;
    std::vector<double> x;
    std::vector<double> y;
    const auto addKnots = [&](std::size_t first, std::size_t end) {
        for (std::size_t i = first; i < end; ++i) {
            t.push_back(times[i]);
            x.push_back(path[i]->at.x);
            y.push_back(path[i]->at.y);
        }
    };
    addKnots(std::max(before.first, before.end - std::min(before.end, knotsAtEnd)), before.end);
    addKnots(after.first, std::min(after.end, after.first + knotsAtEnd));
    if (t.size() < 4) {
        return;
    }
    std::vector<double> where(times.begin() + static_cast<std::ptrdiff_t>(before.end),
                              times.begin() + static_cast<std::ptrdiff_t>(after.first));
    const auto xs = shapePreserving(t, x, where);
    const auto ys = shapePreserving(t, y, where);
    const auto& a = *path[before.end - 1];
    const auto& b = *path[after.first];
    const double gap = times[after.first] - times[before.end - 1];
    const double unseen = unseenAcceleration * pixelsPerCm * gap * gap / 8.0;
    for (std::size_t i = 0; i < where.size(); ++i) {
        path[before.end + i] =
            PathPoint{{xs[i], ys[i]}, std::max(a.variance, b.variance) + unseen * unseen,
                      a.origin,       a.isDoubtful || b.isDoubtful,
                      true,           std::max(a.clickVariance, b.clickVariance)};
    }
}

bool isEven(const std::vector<double>& times, const Run& run)
{
    const double mean =
        (times[run.end - 1] - times[run.first]) / static_cast<double>(run.end - 1 - run.first);
    for (std::size_t i = run.first + 1; i < run.end; ++i) {
        if (std::abs(times[i] - times[i - 1] - mean) > evenness * mean) {
            return false;
        }
    }
    return true;
}

} // namespace

void bridgeGaps(FollowedPath& path, const std::vector<double>& times, double pixelsPerCm)
{
    const auto runs = runsOf(path);
    for (std::size_t i = 1; i < runs.size(); ++i) {
        const double gap = times[runs[i].first] - times[runs[i - 1].end - 1];
        if (gap <= longestBridge) {
            bridgeBetween(path, times, runs[i - 1], runs[i], pixelsPerCm);
        }
    }
}

void doubtBrokenBones(FigurePaths& paths)
{
    for (const auto& part : rigidParts) {
        const bool isLeg = part.landmarks[1] == Landmark::Knee ||
                           (part.landmarks[1] == Landmark::Ankle && !part.isFoot());
        if (!isLeg) {
            continue;
        }
        const auto& upper = paths[placeOf(part.landmarks[0])];
        auto& lower = paths[placeOf(part.landmarks[1])];
        if (upper.size() != lower.size()) {
            continue; // one of them was never followed
        }
        std::vector<double> lengths;
        for (std::size_t i = 0; i < lower.size(); ++i) {
            if (upper[i] && lower[i]) {
                lengths.push_back(cv::norm(upper[i]->at - lower[i]->at));
            }
        }
        if (lengths.size() < 10) {
            continue;
        }
        const double usual = upperMedianOf(std::move(lengths));
        for (std::size_t i = 0; i < lower.size(); ++i) {
            if (!upper[i] || !lower[i]) {
                continue;
            }
            const double off = cv::norm(upper[i]->at - lower[i]->at) - usual;
            if (std::abs(off) > oddLength * usual) {
                lower[i]->isDoubtful = true;
                lower[i]->variance = std::max(lower[i]->variance, off * off / 2.0);
            }
        }
    }
}

void smoothPath(FollowedPath& path, const std::vector<double>& times)
{
    for (const auto& run : runsOf(path)) {
        if (run.end - run.first < 12 || !isEven(times, run)) {
            continue;
        }
        const double rate =
            static_cast<double>(run.end - 1 - run.first) / (times[run.end - 1] - times[run.first]);
        std::vector<double> x;
        std::vector<double> y;
        for (std::size_t i = run.first; i < run.end; ++i) {
            x.push_back(path[i]->at.x);
            y.push_back(path[i]->at.y);
        }
        const double cutoff = std::max(residualCutoff(x, rate), residualCutoff(y, rate));
        x = zeroLag(x, rate, cutoff);
        y = zeroLag(y, rate, cutoff);
        for (std::size_t i = run.first; i < run.end; ++i) {
            path[i]->at = {x[i - run.first], y[i - run.first]};
        }
    }
}

std::vector<std::pair<Landmark, FollowedPath>> finishedPaths(FigurePaths paths,
                                                             const FigureSeeds& seeds,
                                                             const std::vector<double>& times,
                                                             double pixelsPerCm)
{
    doubtBrokenBones(paths);
    std::vector<std::pair<Landmark, FollowedPath>> finished;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        if (!seeds[i].empty()) {
            bridgeGaps(paths[i], times, pixelsPerCm);
            smoothPath(paths[i], times);
            finished.emplace_back(static_cast<Landmark>(i), std::move(paths[i]));
        }
    }
    return finished;
}

} // namespace latemile
