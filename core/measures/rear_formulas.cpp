// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"

namespace latemile::formula {

namespace {

using enum Landmark;

PlanePoint middle(PlanePoint a, PlanePoint b)
{
    return {(a.x + b.x) / 2.0, (a.y + b.y) / 2.0};
}

/// +1 on the athlete's right, -1 on the left: `outwards(foot) * x` grows away from the body.
double outwards(Foot foot)
{
    return foot == Foot::Right ? 1.0 : -1.0;
}

PlanePoint midpointAt(Evidence& step, Landmark landmark)
{
    return middle(step.at(Instant::MidStance, landmark, BodySide::Left),
                  step.at(Instant::MidStance, landmark, BodySide::Right));
}

} // namespace

double pelvicDrop(Evidence& step)
{
    const auto left = step.at(Instant::MidStance, Psis, BodySide::Left);
    const auto right = step.at(Instant::MidStance, Psis, BodySide::Right);
    return outwards(step.foot()) * atan2Degrees(right.y - left.y, right.x - left.x);
}

double trunkSide(Evidence& step)
{
    return outwards(step.foot()) * leanDegrees(midpointAt(step, Hip), midpointAt(step, Shoulder));
}

double stepWidth(Evidence& step)
{
    const bool isRight = step.foot() == Foot::Right;
    const auto own = step.at(Instant::MidStance, Heel, step.ownSide());
    const auto other =
        step.atNextStep(Instant::MidStance, Heel, isRight ? BodySide::Left : BodySide::Right);
    return isRight ? own.x - other.x : other.x - own.x;
}

double heelEversion(Evidence& step)
{
    const double lateral = outwards(step.foot());
    const auto angle = [lateral](PlanePoint heel, PlanePoint top) {
        return atan2Degrees(lateral * (heel.x - top.x), top.y - heel.y);
    };
    const auto side = step.ownSide();
    const double atContact =
        angle(step.at(Instant::Contact, Heel, side), step.at(Instant::Contact, HeelTop, side));
    const double from = step.contact();
    const double to = step.toeOff();
    const auto onFrame = [&](const Evidence::Figure& point) {
        return angle(point(Heel), point(HeelTop));
    };
    return step.extreme({from, to, Extreme::Highest, {Heel, HeelTop}, onFrame, side}).value -
           atContact;
}

double kneeWindow(Evidence& step)
{
    return step.at(Instant::MidStance, Knee, BodySide::Right).x -
           step.at(Instant::MidStance, Knee, BodySide::Left).x;
}

double shoulderLevel(Evidence& stride)
{
    const double from = stride.contact();
    const double to = stride.strideEnd();
    return stride.meanOver(from, to, Shoulder, [](PlanePoint left, PlanePoint right) {
        return atan2Degrees(right.y - left.y, right.x - left.x);
    });
}

double armCross(Evidence& stride)
{
    const double from = stride.contact();
    const double to = stride.strideEnd();
    return stride.farthestAcross(from, to);
}

} // namespace latemile::formula
