// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"

namespace latemile::formula {

namespace {

constexpr double millisecondsASecond = 1000.0;
constexpr double centimetresAMetre = 100.0;
constexpr double secondsAMinute = 60.0;

} // namespace

double contactTime(Evidence& step)
{
    return millisecondsASecond * (step.toeOff() - step.contact());
}

double flightTime(Evidence& step)
{
    return millisecondsASecond * (step.nextContact() - step.toeOff());
}

double dutyFactor(Evidence& stride)
{
    const double contact = stride.contact();
    const double toeOff = stride.toeOff();
    const double end = stride.strideEnd();
    return stride.missing() ? 0.0 : 100.0 * (toeOff - contact) / (end - contact);
}

double stepRate(Evidence& stride)
{
    const double contact = stride.contact();
    const double end = stride.strideEnd();
    return stride.missing() ? 0.0 : 2.0 * secondsAMinute / (end - contact);
}

double stepRateOfRun(Evidence& clip)
{
    const auto run = clip.longestRun();
    return secondsAMinute * run.steps / (run.to - run.from);
}

double stepLength(Evidence& step)
{
    const double placed =
        (step.nextAnkleAtContact().x - step.ownAnkleAtContact().x) / centimetresAMetre;
    if (!step.hasBelt()) {
        return placed;
    }
    return step.beltSpeed() * (step.nextContact() - step.contact()) + placed;
}

double stepLengthOfRun(Evidence& clip)
{
    const auto run = clip.longestRun();
    return clip.beltSpeed() * (run.to - run.from) / run.steps;
}

} // namespace latemile::formula
