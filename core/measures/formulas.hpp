// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile {

class Evidence;

/// The formulas behind the table of measures: one a measure, of one step or stride, in the
/// measure's own unit. What they mean, their signs and sources stand in measure_table.cpp.
namespace formula {

double headForward(Evidence& step);
double headAngle(Evidence& step);
double neckLength(Evidence& step);
double trunkLean(Evidence& step);
double hipDrop(Evidence& step);
double hipsBehind(Evidence& step);
double verticalOscillation(Evidence& stride);
double footAhead(Evidence& step);
double shankAngle(Evidence& step);
double kneeFlexContact(Evidence& step);
double contactTime(Evidence& step);
double flightTime(Evidence& step);
double dutyFactor(Evidence& stride);
double stepRate(Evidence& stride);
double stepRateOfRun(Evidence& clip);
double stepLength(Evidence& step);
double stepLengthOfRun(Evidence& clip);

} // namespace formula
} // namespace latemile
