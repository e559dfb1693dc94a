// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/still_drawing.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace latemile {
namespace {

/// How far out on its leg an arc is drawn: small angles are wide enough to see there.
constexpr double arcShare = 0.6;

const Mark* nearMark(const Marking& marking, FrameNumber frame, Landmark landmark)
{
    return marking.find({frame, BodySide::Near, landmark});
}

double lengthOf(PixelPoint from, PixelPoint to)
{
    return std::hypot(to.u - from.u, to.v - from.v);
}

/// From a towards b, `share` of the way; beyond b for shares over 1.
PixelPoint along(PixelPoint a, PixelPoint b, double share)
{
    return {a.u + share * (b.u - a.u), a.v + share * (b.v - a.v)};
}

/// Direction of b seen from a, degrees anticlockwise from the picture's right.
double directionOf(PixelPoint a, PixelPoint b)
{
    return std::atan2(a.v - b.v, b.u - a.u) * 180.0 / std::numbers::pi;
}

PixelPoint inDirection(PixelPoint from, double degrees, double length)
{
    const double radians = degrees * std::numbers::pi / 180.0;
    return {from.u + length * std::cos(radians), from.v - length * std::sin(radians)};
}

/// The shorter way round from one direction to the other.
StillArc arcBetween(PixelPoint centre, double from, double to, double radius)
{
    return {centre, from, from + std::remainder(to - from, 360.0), radius};
}

double middleOf(const StillArc& arc)
{
    return (arc.fromDegrees + arc.toDegrees) / 2.0;
}

/// Where a drawing finds its landmarks; the two ends it always has, and their frame's plane.
struct Sketch {
    const Marking& marking;
    FrameNumber frame;
    const Plane& plane;

    [[nodiscard]] std::optional<PixelPoint> at(Landmark landmark) const
    {
        const Mark* mark = nearMark(marking, frame, landmark);
        return mark ? std::optional(mark->at) : std::nullopt;
    }

    std::optional<StillMeasured> operator()(std::monostate) const { return std::nullopt; }

    std::optional<StillMeasured> operator()(const HorizontalGap& gap) const
    {
        return corner(gap.from, gap.to, [](PlanePoint from, PlanePoint to) {
            return PlanePoint{from.x, to.y};
        });
    }

    std::optional<StillMeasured> operator()(const VerticalGap& gap) const
    {
        return corner(gap.from, gap.to, [](PlanePoint from, PlanePoint to) {
            return PlanePoint{to.x, from.y};
        });
    }

    std::optional<StillMeasured> operator()(const AngleToPlumb& angle) const
    {
        const auto foot = at(angle.at);
        const auto end = at(angle.towards);
        if (!foot || !end) {
            return std::nullopt;
        }
        PlanePoint high = plane.toPlane(*foot);
        high.y += plane.toPlane(*end).y > high.y ? 1.0 : -1.0;
        const double length = lengthOf(*foot, *end);
        const PixelPoint vertical = plane.toPixel(high);
        const PixelPoint reference =
            along(*foot, vertical, length / std::max(lengthOf(*foot, vertical), 1e-9));
        const StillArc arc = arcBetween(*foot, directionOf(*foot, reference),
                                        directionOf(*foot, *end), arcShare * length);
        StillMeasured drawn;
        drawn.lines = {{*foot, reference}};
        drawn.arcs = {arc};
        drawn.labelAt = inDirection(*foot, middleOf(arc), arc.radius);
        return drawn;
    }

    std::optional<StillMeasured> operator()(const JointAngle& angle) const
    {
        const auto end = at(angle.end);
        const auto joint = at(angle.joint);
        const auto other = at(angle.otherEnd);
        if (!end || !joint || !other) {
            return std::nullopt;
        }
        const double length = 0.8 * lengthOf(*joint, *other);
        const double straight = directionOf(*end, *joint);
        const StillArc arc =
            arcBetween(*joint, straight, directionOf(*joint, *other), arcShare * length);
        StillMeasured drawn;
        drawn.lines = {{*joint, inDirection(*joint, straight, length)}};
        drawn.arcs = {arc};
        drawn.labelAt = inDirection(*joint, middleOf(arc), arc.radius);
        return drawn;
    }

private:
    /// Two lines at a right angle in the runner's plane; the second is what was measured.
    template <class Corner>
    std::optional<StillMeasured> corner(Landmark fromLandmark, Landmark toLandmark,
                                        Corner cornerOf) const
    {
        const auto from = at(fromLandmark);
        const auto to = at(toLandmark);
        if (!from || !to) {
            return std::nullopt;
        }
        const PixelPoint turn = plane.toPixel(cornerOf(plane.toPlane(*from), plane.toPlane(*to)));
        StillMeasured drawn;
        drawn.lines = {{*from, turn}, {turn, *to}};
        drawn.labelAt = along(turn, *to, 0.5);
        return drawn;
    }
};

} // namespace

std::vector<StillLine> nearSegments(const Marking& marking, FrameNumber frame)
{
    static constexpr std::array bones{std::pair{Landmark::Ear, Landmark::Shoulder},
                                      std::pair{Landmark::Shoulder, Landmark::Elbow},
                                      std::pair{Landmark::Elbow, Landmark::Wrist},
                                      std::pair{Landmark::Shoulder, Landmark::Hip},
                                      std::pair{Landmark::Hip, Landmark::Knee},
                                      std::pair{Landmark::Knee, Landmark::Ankle},
                                      std::pair{Landmark::Ankle, Landmark::Heel},
                                      std::pair{Landmark::Heel, Landmark::Toe}};
    std::vector<StillLine> lines;
    for (const auto& [from, to] : bones) {
        const Mark* start = nearMark(marking, frame, from);
        const Mark* end = nearMark(marking, frame, to);
        if (start && end) {
            lines.push_back({start->at, end->at});
        }
    }
    return lines;
}

std::vector<StillMark> nearLandmarks(const Marking& marking, FrameNumber frame)
{
    std::vector<StillMark> landmarks;
    for (const Landmark landmark : sideViewLandmarks) {
        if (const Mark* mark = nearMark(marking, frame, landmark)) {
            landmarks.push_back({landmark, mark->at, mark->origin == Origin::Placed});
        }
    }
    return landmarks;
}

std::optional<StillMeasured> drawingOf(const Measure& measure, const Marking& marking,
                                       FrameNumber frame, const Plane& plane)
{
    auto drawn = std::visit(Sketch{marking, frame, plane}, measure.drawing);
    if (drawn) {
        drawn->measure = measure.id;
    }
    return drawn;
}

StillLine plumbThrough(PixelPoint point, double top, double bottom, const Plane& plane)
{
    PlanePoint above = plane.toPlane(point);
    above.y += 10.0;
    const PixelPoint up = plane.toPixel(above);
    const double rise = up.v - point.v;
    if (std::abs(rise) < 1e-9) {
        return {{point.u, top}, {point.u, bottom}};
    }
    const double slope = (up.u - point.u) / rise;
    return {{point.u + slope * (top - point.v), top},
            {point.u + slope * (bottom - point.v), bottom}};
}

} // namespace latemile
