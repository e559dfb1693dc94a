// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"

namespace latemile::formula {

namespace {

using enum Landmark;
using Figure = Evidence::Figure;

double elbowBehind(const Figure& point)
{
    return point(Shoulder).x - point(Elbow).x;
}

double handAhead(const Figure& point)
{
    return point(Wrist).x - point(Shoulder).x;
}

double handOverHip(const Figure& point)
{
    return point(Wrist).y - point(Hip).y;
}

Sample inStride(Evidence& stride, Extreme kind, const FewLandmarks& landmarks,
                const Evidence::OnFrame& value)
{
    const double from = stride.contact();
    const double to = stride.strideEnd();
    return stride.extreme({from, to, kind, landmarks, value});
}

} // namespace

double headForward(Evidence& step)
{
    return step.at(Instant::MidStance, Ear).x - step.at(Instant::MidStance, Shoulder).x;
}

double headAngle(Evidence& step)
{
    return leanDegrees(step.at(Instant::MidStance, Shoulder), step.at(Instant::MidStance, Ear));
}

double neckLength(Evidence& step)
{
    return step.at(Instant::MidStance, Ear).y - step.at(Instant::MidStance, Shoulder).y;
}

double neckLengthOfTrunk(Evidence& step)
{
    return 100.0 * neckLength(step) / step.trunk();
}

double trunkLean(Evidence& step)
{
    return leanDegrees(step.at(Instant::MidStance, Hip), step.at(Instant::MidStance, Shoulder));
}

double trunkLeanAtContact(Evidence& step)
{
    return leanDegrees(step.at(Instant::Contact, Hip), step.at(Instant::Contact, Shoulder));
}

double armBack(Evidence& stride)
{
    return inStride(stride, Extreme::Highest, {Shoulder, Elbow}, elbowBehind).value;
}

double armForward(Evidence& stride)
{
    return inStride(stride, Extreme::Highest, {Shoulder, Wrist}, handAhead).value;
}

double elbowAngle(Evidence& stride)
{
    const double back = inStride(stride, Extreme::Highest, {Shoulder, Elbow}, elbowBehind).time;
    const double forward = inStride(stride, Extreme::Highest, {Shoulder, Wrist}, handAhead).time;
    const auto angle = [](const Figure& point) {
        return innerAngleDegrees(point(Shoulder), point(Elbow), point(Wrist));
    };
    const FewLandmarks landmarks{Shoulder, Elbow, Wrist};
    return (stride.near(back, landmarks, angle) + stride.near(forward, landmarks, angle)) / 2.0;
}

double handHeight(Evidence& stride)
{
    return 100.0 * inStride(stride, Extreme::Highest, {Wrist, Hip}, handOverHip).value /
           stride.trunk();
}

double handHeightLowest(Evidence& stride)
{
    return 100.0 * inStride(stride, Extreme::Lowest, {Wrist, Hip}, handOverHip).value /
           stride.trunk();
}

} // namespace latemile::formula
