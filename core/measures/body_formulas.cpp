// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"
#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"

namespace latemile::formula {

double headForward(Evidence& step)
{
    return step.at(Instant::MidStance, Landmark::Ear).x -
           step.at(Instant::MidStance, Landmark::Shoulder).x;
}

double headAngle(Evidence& step)
{
    return leanDegrees(step.at(Instant::MidStance, Landmark::Shoulder),
                       step.at(Instant::MidStance, Landmark::Ear));
}

double neckLength(Evidence& step)
{
    return step.at(Instant::MidStance, Landmark::Ear).y -
           step.at(Instant::MidStance, Landmark::Shoulder).y;
}

double trunkLean(Evidence& step)
{
    return leanDegrees(step.at(Instant::MidStance, Landmark::Hip),
                       step.at(Instant::MidStance, Landmark::Shoulder));
}

double hipDrop(Evidence& step)
{
    return step.at(Instant::Contact, Landmark::Hip).y -
           step.at(Instant::MidStance, Landmark::Hip).y;
}

double hipsBehind(Evidence& step)
{
    return step.at(Instant::MidStance, Landmark::Ankle).x -
           step.at(Instant::MidStance, Landmark::Hip).x;
}

double verticalOscillation(Evidence& stride)
{
    const double contact = stride.contact();
    const double between = stride.nextContact();
    const double end = stride.strideEnd();
    const auto height = [](const auto& point) { return point(Landmark::Hip).y; };
    const auto rise = [&](double from, double to) {
        return stride.extreme(from, to, Extreme::Highest, {Landmark::Hip}, height) -
               stride.extreme(from, to, Extreme::Lowest, {Landmark::Hip}, height);
    };
    return (rise(contact, between) + rise(between, end)) / 2.0;
}

double footAhead(Evidence& step)
{
    return step.at(Instant::Contact, Landmark::Ankle).x -
           step.at(Instant::Contact, Landmark::Hip).x;
}

double shankAngle(Evidence& step)
{
    return shankDegrees(step.at(Instant::Contact, Landmark::Knee),
                        step.at(Instant::Contact, Landmark::Ankle));
}

double kneeFlexContact(Evidence& step)
{
    return kneeFlexionDegrees(step.at(Instant::Contact, Landmark::Hip),
                              step.at(Instant::Contact, Landmark::Knee),
                              step.at(Instant::Contact, Landmark::Ankle));
}

} // namespace latemile::formula
