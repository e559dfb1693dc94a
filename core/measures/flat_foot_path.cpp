// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/flat_foot_path.hpp"

#include <cmath>

namespace latemile {

namespace {

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
    const auto first = clip.index.firstAtOrAfter(Seconds{contact + 0.25 * stance});
    for (const auto frame : clip.tracks.framesFrom(first, BodySide::Near, landmark)) {
        const double time = clip.index.time(frame).count();
        if (time > contact + 0.50 * stance) {
            break;
        }
        const auto* point = clip.tracks.find({frame, BodySide::Near, landmark});
        points.push_back({time, point->plane, point->sePx * clip.plane.cmPerPixel(point->mark.at)});
    }
    return points;
}

std::optional<FlatFootPath> fittedPath(const std::vector<TimedPoint>& points)
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
    return FlatFootPath{tx / tt, se / std::sqrt(tt), ty / tt};
}

} // namespace

std::optional<FlatFootPath> flatFootPath(const PreparedClip& clip, const Step& step)
{
    if (step.foot != clip.nearFoot() || !step.toeOff || step.gap) {
        return std::nullopt;
    }
    auto path = fittedPath(footFlat(clip, step, Landmark::Toe));
    if (!path) {
        path = fittedPath(footFlat(clip, step, Landmark::Heel));
    }
    return path;
}

} // namespace latemile
