// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/checks.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace latemile {

namespace {

/// The foot's straight path on the belt in one stance.
struct Path {
    double speed{};   ///< cm/s, x
    double speedSe{}; ///< from the marks
    double rise{};    ///< cm/s, y
};

struct TimedPoint {
    double time{};
    PlanePoint at;
    double seCm{};
};

std::vector<TimedPoint> footFlat(const PreparedClip& clip, const Step& step, Landmark landmark)
{
    const double contact = step.contact.count();
    const double stance = step.toeOff->count() - contact;
    std::vector<TimedPoint> points;
    for (const auto frame : clip.tracks.framesOf(BodySide::Near, landmark)) {
        const double time = clip.index.time(frame).count();
        if (time >= contact + 0.25 * stance && time <= contact + 0.50 * stance) {
            const auto* point = clip.tracks.find({frame, BodySide::Near, landmark});
            points.push_back(
                {time, point->plane, point->sePx * clip.plane.cmPerPixel(point->mark.at)});
        }
    }
    return points;
}

std::optional<Path> fittedPath(const std::vector<TimedPoint>& points)
{
    if (points.size() < 3) {
        return std::nullopt;
    }
    const auto n = static_cast<double>(points.size());
    double t = 0.0;
    double x = 0.0;
    double y = 0.0;
    double se = 0.0;
    for (const auto& p : points) {
        t += p.time / n;
        x += p.at.x / n;
        y += p.at.y / n;
        se += p.seCm / n;
    }
    double tt = 0.0;
    double tx = 0.0;
    double ty = 0.0;
    for (const auto& p : points) {
        tt += (p.time - t) * (p.time - t);
        tx += (p.time - t) * (p.at.x - x);
        ty += (p.time - t) * (p.at.y - y);
    }
    return Path{tx / tt, se / std::sqrt(tt), ty / tt};
}

double median(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    const auto n = values.size();
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2.0;
}

/// A median of n alike is less sure than their mean by this factor (large n, normal errors).
const double medianLoss = std::sqrt(std::numbers::pi / 2.0);

} // namespace

std::optional<BeltWitness> beltWitness(const PreparedClip& clip)
{
    const auto belt = clip.conditions.scene.beltSpeed;
    if (!belt || *belt <= 0.0 || !clip.plane.hasScale()) {
        return std::nullopt;
    }
    std::vector<double> ratios;
    std::vector<double> slopes;
    double variance = 0.0;
    for (const auto& step : clip.steps) {
        if (step.foot != clip.nearFoot() || !step.toeOff || step.gap) {
            continue;
        }
        auto path = fittedPath(footFlat(clip, step, Landmark::Toe));
        if (!path) {
            path = fittedPath(footFlat(clip, step, Landmark::Heel));
        }
        if (path) {
            const double perSpeed = 1.0 / (100.0 * *belt);
            ratios.push_back(-path->speed * perSpeed);
            slopes.push_back(atan2Degrees(-path->rise, -path->speed));
            variance += path->speedSe * perSpeed * path->speedSe * perSpeed;
        }
    }
    if (ratios.empty()) {
        return std::nullopt;
    }
    const auto n = static_cast<double>(ratios.size());
    const double marks = (ratios.size() > 2 ? medianLoss : 1.0) * std::sqrt(variance) / n;
    const double ratio = median(ratios);
    return BeltWitness{ratio, std::hypot(marks, ratio * clip.plane.relativeScaleError()),
                       median(slopes), static_cast<int>(ratios.size())};
}

} // namespace latemile
