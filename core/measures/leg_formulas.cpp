// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"

namespace latemile::formula {

namespace {

using enum Landmark;
using Figure = Evidence::Figure;

double kneeOf(const Figure& point)
{
    return kneeFlexionDegrees(point(Hip), point(Knee), point(Ankle));
}

double inStance(Evidence& step, Extreme kind, const FewLandmarks& landmarks,
                const Evidence::OnFrame& value)
{
    const double from = step.contact();
    const double to = step.toeOff();
    return step.extreme({from, to, kind, landmarks, value}).value;
}

double inSwing(Evidence& step, Extreme kind, const FewLandmarks& landmarks,
               const Evidence::OnFrame& value)
{
    const double from = step.toeOff();
    const double to = step.strideEnd();
    return step.extreme({from, to, kind, landmarks, value}).value;
}

/// Foot against the flat foot, at an instant.
double inclinationAt(Evidence& step, Instant instant)
{
    return wrapDegrees(footDegrees(step.at(instant, Heel), step.at(instant, Toe)) -
                       step.flatFootDegrees());
}

double dorsiflexionAt(Evidence& step, Instant instant)
{
    return wrapDegrees(inclinationAt(step, instant) -
                       shankDegrees(step.at(instant, Knee), step.at(instant, Ankle)));
}

} // namespace

double hipHeight(Evidence& step)
{
    return 100.0 * step.heightOverGround(Instant::MidStance, Hip) / step.legLength();
}

double hipDrop(Evidence& step)
{
    return step.at(Instant::Contact, Hip).y - step.at(Instant::MidStance, Hip).y;
}

double hipsBehind(Evidence& step)
{
    return step.at(Instant::MidStance, Ankle).x - step.at(Instant::MidStance, Hip).x;
}

double pelvicTilt(Evidence& step)
{
    const auto back = step.at(Instant::MidStance, Psis);
    const auto front = step.at(Instant::MidStance, Asis);
    return atan2Degrees(back.y - front.y, front.x - back.x);
}

double verticalOscillation(Evidence& stride)
{
    const double contact = stride.contact();
    const double between = stride.nextContact();
    const double end = stride.strideEnd();
    const auto height = [](const Figure& point) { return point(Hip).y; };
    const auto rise = [&](double from, double to) {
        return stride.extreme({from, to, Extreme::Highest, {Hip}, height}).value -
               stride.extreme({from, to, Extreme::Lowest, {Hip}, height}).value;
    };
    return (rise(contact, between) + rise(between, end)) / 2.0;
}

double footAhead(Evidence& step)
{
    return step.at(Instant::Contact, Ankle).x - step.at(Instant::Contact, Hip).x;
}

double footAheadOfLeg(Evidence& step)
{
    return 100.0 * footAhead(step) / step.legLength();
}

double heelAhead(Evidence& step)
{
    return step.at(Instant::Contact, Heel).x - step.at(Instant::Contact, Hip).x;
}

double shankAngle(Evidence& step)
{
    return shankDegrees(step.at(Instant::Contact, Knee), step.at(Instant::Contact, Ankle));
}

double kneeFlexContact(Evidence& step)
{
    return kneeFlexionDegrees(step.at(Instant::Contact, Hip), step.at(Instant::Contact, Knee),
                              step.at(Instant::Contact, Ankle));
}

double kneeFlexStance(Evidence& step)
{
    return inStance(step, Extreme::Highest, {Hip, Knee, Ankle}, kneeOf);
}

double kneeExcursion(Evidence& step)
{
    return kneeFlexStance(step) - kneeFlexContact(step);
}

double dorsiflexion(Evidence& step)
{
    return dorsiflexionAt(step, Instant::Contact);
}

double dorsiflexionMidStance(Evidence& step)
{
    return dorsiflexionAt(step, Instant::MidStance);
}

double dorsiflexionPeak(Evidence& step)
{
    const auto angle = [](const Figure& point) {
        return wrapDegrees(footDegrees(point(Heel), point(Toe)) -
                           shankDegrees(point(Knee), point(Ankle)));
    };
    return inStance(step, Extreme::Highest, {Knee, Ankle, Heel, Toe}, angle) -
           step.flatFootDegrees();
}

double footInclination(Evidence& step)
{
    return inclinationAt(step, Instant::Contact);
}

double strike(Evidence& step)
{
    // Altman & Davis 2012, Gait Posture (limits from memory): above 8.0 degrees a heel strike,
    // below -1.6 forefoot.
    const double inclination = footInclination(step);
    return inclination > 8.0 ? 1.0 : inclination < -1.6 ? -1.0 : 0.0;
}

double trailingLimb(Evidence& step)
{
    const auto hip = step.at(Instant::ToeOff, Hip);
    const auto toe = step.at(Instant::ToeOff, Toe);
    return atan2Degrees(hip.x - toe.x, hip.y - toe.y);
}

double hipExtension(Evidence& step)
{
    const auto hip = step.at(Instant::ToeOff, Hip);
    return -wrapDegrees(thighDegrees(hip, step.at(Instant::ToeOff, Knee)) +
                        leanDegrees(hip, step.at(Instant::ToeOff, Shoulder)));
}

double thighLift(Evidence& step)
{
    return inSwing(step, Extreme::Highest, {Hip, Knee},
                   [](const Figure& point) { return thighDegrees(point(Hip), point(Knee)); });
}

double swingKnee(Evidence& step)
{
    return inSwing(step, Extreme::Highest, {Hip, Knee, Ankle}, kneeOf);
}

double footLift(Evidence& step)
{
    return inSwing(step, Extreme::Highest, {Heel},
                   [](const Figure& point) { return point(Heel).y; }) -
           step.flatHeel().y;
}

double footLiftOfLeg(Evidence& step)
{
    return 100.0 * footLift(step) / step.legLength();
}

} // namespace latemile::formula
