// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile {

class Evidence;

/// The formulas behind the table of measures: one a measure, of one step, stride or clip, in the
/// measure's own unit. What they mean, their signs and sources stand in the tables beside.
namespace formula {

// Head, trunk and arms.
double headForward(Evidence& step);
double headAngle(Evidence& step);
double neckLength(Evidence& step);
double neckLengthOfTrunk(Evidence& step);
double trunkLean(Evidence& step);
double trunkLeanAtContact(Evidence& step);
double elbowAngle(Evidence& stride);
double armBack(Evidence& stride);
double armForward(Evidence& stride);
double handHeight(Evidence& stride);
double handHeightLowest(Evidence& stride);

// Pelvis and leg.
double hipHeight(Evidence& step);
double hipDrop(Evidence& step);
double hipsBehind(Evidence& step);
double pelvicTilt(Evidence& step);
double verticalOscillation(Evidence& stride);
double footAhead(Evidence& step);
double footAheadOfLeg(Evidence& step);
double heelAhead(Evidence& step);
double shankAngle(Evidence& step);
double kneeFlexContact(Evidence& step);
double kneeFlexStance(Evidence& step);
double kneeExcursion(Evidence& step);
double dorsiflexion(Evidence& step);
double dorsiflexionMidStance(Evidence& step);
double dorsiflexionPeak(Evidence& step);
double footInclination(Evidence& step);
double strike(Evidence& step); ///< 1 heel, 0 mid, -1 fore
double trailingLimb(Evidence& step);
double hipExtension(Evidence& step);
double thighLift(Evidence& step);
double swingKnee(Evidence& step);
double footLift(Evidence& step);
double footLiftOfLeg(Evidence& step);

// Timings and what follows from them.
double contactTime(Evidence& step);
double flightTime(Evidence& step);
double dutyFactor(Evidence& stride);
double stepRate(Evidence& stride);
double stepRateOfRun(Evidence& clip);
double stepLength(Evidence& step);
double stepLengthOfRun(Evidence& clip);
double stepAsymmetry(Evidence& pair);
double contactAsymmetry(Evidence& pair);
double verticalStiffness(Evidence& clip);
double legStiffness(Evidence& clip);

// From behind.
double pelvicDrop(Evidence& step);
double trunkSide(Evidence& step);
double stepWidth(Evidence& step);
double heelEversion(Evidence& step);
double kneeWindow(Evidence& step);
double shoulderLevel(Evidence& stride);
double armCross(Evidence& stride);

} // namespace formula
} // namespace latemile
