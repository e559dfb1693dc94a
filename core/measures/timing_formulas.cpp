// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/evidence.hpp"
#include "core/measures/formulas.hpp"

#include <cmath>
#include <numbers>

namespace latemile::formula {

namespace {

constexpr double millisecondsASecond = 1000.0;
constexpr double centimetresAMetre = 100.0;
constexpr double secondsAMinute = 60.0;
constexpr double gravity = 9.81; // m/s^2
/// The sine model holds on the level (a choice of this project).
constexpr double steepestPercent = 1.0;

/// 100 (left - right) / mean.
double asymmetry(double left, double right)
{
    return 100.0 * (left - right) / ((left + right) / 2.0);
}

/// Sine-force model of a step: Morin et al. 2005, J Appl Biomech 21:167. SI units.
struct SineStep {
    double force{};      ///< N
    double centreDrop{}; ///< m, of the body's centre in contact
    double contact{};    ///< s
};

SineStep sineStep(Evidence& clip)
{
    const auto mean = clip.meanStep();
    const double mass = clip.mass();
    if (mean.flight <= 0.0) {
        clip.setMissing("there is no flight: the spring model does not hold");
    }
    if (std::abs(clip.inclinePercent()) > steepestPercent) {
        clip.setMissing("the spring model holds on the level only");
    }
    const double force =
        mass * gravity * (std::numbers::pi / 2.0) * (mean.flight / mean.contact + 1.0);
    const double drop =
        force * mean.contact * mean.contact / (mass * std::numbers::pi * std::numbers::pi) -
        gravity * mean.contact * mean.contact / 8.0;
    return {force, drop, mean.contact};
}

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
        step.needStillGround();
        return placed;
    }
    return step.beltSpeed() * (step.nextContact() - step.contact()) + placed;
}

double stepLengthOfRun(Evidence& clip)
{
    const auto run = clip.longestRun();
    return clip.beltSpeed() * (run.to - run.from) / run.steps;
}

double stepAsymmetry(Evidence& pair)
{
    const double left = pair.nextContact() - pair.contact();
    const double right = pair.strideEnd() - pair.nextContact();
    return pair.missing() ? 0.0 : asymmetry(left, right);
}

double contactAsymmetry(Evidence& pair)
{
    const double left = pair.toeOff() - pair.contact();
    const double right = pair.nextToeOff() - pair.nextContact();
    return pair.missing() ? 0.0 : asymmetry(left, right);
}

double verticalStiffness(Evidence& clip)
{
    const auto step = sineStep(clip);
    return step.force / step.centreDrop / 1000.0;
}

double legStiffness(Evidence& clip)
{
    const auto step = sineStep(clip);
    const double leg = clip.legLength() / centimetresAMetre;
    const double half = clip.beltSpeed() * step.contact / 2.0;
    if (half >= leg) {
        clip.setMissing(
            "the leg is too short for this contact and speed: check leg length, events and speed");
        return 0.0;
    }
    const double compression = leg - std::sqrt(leg * leg - half * half) + step.centreDrop;
    return step.force / compression / 1000.0;
}

} // namespace latemile::formula
