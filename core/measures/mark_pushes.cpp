// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/mark_pushes.hpp"

#include <algorithm>
#include <utility>

namespace latemile {

namespace {

double square(double value)
{
    return value * value;
}

Push pushOf(const MarkKey& key, double se, const Slopes& slopes)
{
    constexpr double shiftPx = 1e-3;
    const auto by = [&](PixelPoint direction) {
        return se * slopes.by(shiftPx, [&](Disturbance& d, double amount) {
            d.mark = key;
            d.markBy = {direction.u * amount, direction.v * amount};
        });
    };
    return {by({1.0, 0.0}), by({0.0, 1.0})};
}

/// The marks of one path push together with what they share, each alone with the rest.
struct PathPush {
    std::pair<std::size_t, int> path; ///< landmark's place, number of the path
    Push sum;
};

/// What the marks push by way of extremes and means, one a mark used: the slope of the formula by
/// each path once, times the slopes of the path by its marks.
std::vector<Push> pushesByPaths(const PreparedClip& clip, const Evidence& base,
                                const Slopes& slopes)
{
    constexpr double shift = 1e-3; // of the path's unit, cm or degrees
    std::vector<double> byPath;
    for (std::size_t path = 0; path < base.pathsAsked(); ++path) {
        byPath.push_back(slopes.by(shift, [path](Disturbance& d, double by) {
            d.path = path;
            d.pathBy = by;
        }));
    }
    const auto& marks = base.marksUsed();
    std::vector<Push> pushes(marks.size());
    for (const auto& slope : base.pathSlopes()) {
        auto& push = pushes[static_cast<std::size_t>(std::ranges::lower_bound(marks, slope.mark) -
                                                     marks.begin())];
        const double by = byPath[slope.path] * clip.tracks.find(slope.mark)->sePx;
        push = {push.u + by * slope.perPixel.u, push.v + by * slope.perPixel.v};
    }
    return pushes;
}

} // namespace

std::vector<Push> pushesOf(const PreparedClip& clip, const Evidence& base, const Slopes& slopes)
{
    auto pushes = pushesByPaths(clip, base, slopes);
    for (std::size_t i = 0; i < pushes.size(); ++i) {
        const auto& mark = base.marksUsed()[i];
        if (base.wasReadBesidePaths(mark)) {
            pushes[i] = pushOf(mark, clip.tracks.find(mark)->sePx, slopes);
        }
    }
    return pushes;
}

void addMarkShares(DetailedShares& detail, const PreparedClip& clip,
                   const std::vector<MarkKey>& marks, const std::vector<Push>& pushes)
{
    std::vector<PathPush> paths;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const auto& key = marks[i];
        const auto& point = *clip.tracks.find(key);
        const auto push = pushes[i];
        const auto place = DetailedShares::placeOf(key.side, key.landmark);
        const double alone = point.path < 0 ? 1.0 : 1.0 - pathCorrelation;
        detail.landmarks[place] += alone * (square(push.u) + square(push.v));
        if (point.path < 0) {
            continue;
        }
        const std::pair path{place, point.path};
        auto found = std::ranges::find(paths, path, &PathPush::path);
        if (found == paths.end()) {
            found = paths.insert(found, {path, {}});
        }
        found->sum = {found->sum.u + push.u, found->sum.v + push.v};
    }
    for (const auto& [path, sum] : paths) {
        detail.landmarks[path.first] += pathCorrelation * (square(sum.u) + square(sum.v));
    }
}

} // namespace latemile
