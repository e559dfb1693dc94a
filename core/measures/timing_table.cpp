// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/formulas.hpp"
#include "core/measures/measure_tables.hpp"

namespace latemile {

namespace {

using enum Landmark;
using Rate = ValueRate::Of;

} // namespace

std::vector<Measure> timingMeasures()
{
    return {
        Measure{.id = "contact_time",
                .name = "Contact time",
                .unit = Unit::Millisecond,
                .decimals = 0,
                .positive = "longer",
                .feet = Feet::Each,
                .instantWords = "stance",
                .floor = 5.0,
                .betweenDays = timeBetweenDays,
                .withSpeed = WithSpeed::Falls,
                .speedSensitive = true,
                .meaning = "How long the foot stays on the ground.",
                .traps =
                    "Needs 120 frames/s or more: one contact at 60 frames/s is uncertain by 14 ms.",
                .source = runnerTimes,
                .more = "the foot stays {} longer on the ground",
                .less = "the foot stays {} shorter on the ground",
                .same = "the time of the foot on the ground",
                .formula = formula::contactTime},
        Measure{
            .id = "flight_time",
            .name = "Flight time",
            .unit = Unit::Millisecond,
            .decimals = 0,
            .positive = "longer; zero or less is no flight",
            .feet = Feet::Each,
            .instantWords = "after stance",
            .floor = 5.0,
            .betweenDays = timeBetweenDays,
            .withSpeed = WithSpeed::Rises,
            .speedSensitive = true,
            .meaning = "From toe-off to the contact of the other foot.",
            .traps =
                "Shares toe-off with contact time: what one gains by a late mark the other loses.",
            .source = runnerTimes,
            .more = "both feet are off the ground {} longer",
            .less = "both feet are off the ground {} shorter",
            .same = "the time both feet are off the ground",
            .formula = formula::flightTime},
        Measure{.id = "duty_factor",
                .name = "Duty factor",
                .unit = Unit::Percent,
                .positive = "more grounded",
                .feet = Feet::Each,
                .over = Over::Stride,
                .instantWords = "stride",
                .floor = 0.7,
                .betweenDays = 0.7, // 5 ms of a stride of 0.7 s
                .withSpeed = WithSpeed::Falls,
                .speedSensitive = true,
                .meaning = "Share of the stride the foot spends on the ground.",
                .traps = "Needs the next contact of the same foot.",
                .source = runnerTimes,
                .more = "each foot is on the ground for {} more of the stride",
                .less = "each foot is on the ground for {} less of the stride",
                .same = "the share of the stride a foot is on the ground",
                .formula = formula::dutyFactor},
        Measure{
            .id = "step_rate",
            .name = "Step rate",
            .unit = Unit::StepsPerMinute,
            .positive = "quicker",
            .feet = Feet::Each,
            .over = Over::Stride,
            .instantWords = "stride",
            .floor = 2.0,
            .betweenDays =
                0.0, // both ends are contacts, judged alike: nothing of the placement is left
            .withSpeed = WithSpeed::Rises,
            .speedSensitive = true,
            .meaning = "Steps a minute, both feet counted.",
            .traps =
                "Rises with speed by about 5.6 steps/min per m/s: compare at the same speed only.",
            .source = "Burns 2019, J Appl Physiol (elite mean 182, 155-203; slope with speed); de "
                      "Oliveira "
                      "2019, Sports Health 11:409 (ICC .75-1.0).",
            .more = "the steps are quicker by {}",
            .less = "the steps are slower by {}",
            .same = "the step rate",
            .formula = formula::stepRate,
            .clipFormula = formula::stepRateOfRun},
        Measure{.id = "step_length",
                .name = "Step length",
                .unit = Unit::Metre,
                .decimals = 2,
                .positive = "longer",
                .feet = Feet::Each,
                .instantWords = "step",
                .landmarks = {Ankle},
                .floor = 0.02,
                .betweenDays = offsetBetweenDays / 100.0,
                .withSpeed = WithSpeed::Rises,
                .speedSensitive = true,
                .meaning = "Ground covered from one contact to the next of the other foot.",
                .traps = "On a treadmill it needs the true belt speed and both ankles at their own "
                         "contacts.",
                .source =
                    "Karamanidis & Arampatzis 2005, J Exp Biol (0.9 to 1.2 m; value from memory).",
                .more = "the steps are {} longer",
                .less = "the steps are {} shorter",
                .same = "the length of the steps",
                .formula = formula::stepLength,
                .clipFormula = formula::stepLengthOfRun},
        Measure{.id = "step_asymmetry",
                .name = "Step time, left against right",
                .unit = Unit::Percent,
                .positive = "left step longer",
                .feet = Feet::Pairs,
                .over = Over::Stride,
                .instantWords = "paired steps",
                .floor = 2.0,
                .betweenDays = 1.0,
                // A pair's 2 c2 - c1 - c3 and the next's 2 c4 - c3 - c5 have one of six parts of
                // their variance in common.
                .sharedWithNext = 1.0 / 6.0,
                .withSpeed = WithSpeed::Steady,
                .meaning = "Left step time minus right, as a share of their mean.",
                .traps = "Below the runner's own step-to-step spread it is noise; within 1 to 5 % "
                         "it is ordinary.",
                .source = "Carton-Llorente 2024, Sports 12:117 (under 14s).",
                .more = "the left step is {} longer against the right",
                .less = "the left step is {} shorter against the right",
                .same = "left against right step time",
                .formula = formula::stepAsymmetry},
        Measure{.id = "contact_asymmetry",
                .name = "Contact time, left against right",
                .unit = Unit::Percent,
                .positive = "left longer",
                .feet = Feet::Pairs,
                .over = Over::Stride,
                .instantWords = "paired stances",
                .floor = 3.0,
                .betweenDays = 2.0,
                .withSpeed = WithSpeed::Steady,
                .meaning = "Left contact time minus right, as a share of their mean.",
                .traps = "Within 1 to 6 % it is ordinary; it did not predict injury in runners.",
                .source =
                    "Carton-Llorente 2024, Sports 12:117; Malisoux 2024, BMJ Open SEM 10:e001787.",
                .more = "the left foot stays {} longer against the right",
                .less = "the left foot stays {} shorter against the right",
                .same = "left against right contact time",
                .formula = formula::contactAsymmetry},
        Measure{.id = "k_vert",
                .name = "Vertical stiffness",
                .unit = Unit::KilonewtonPerMetre,
                .positive = "stiffer",
                .feet = Feet::Each,
                .over = Over::Clip,
                .instantWords = "mean step",
                .floor = 0.9,
                .betweenDays = 0.9,
                .withSpeed = WithSpeed::Rises,
                .speedSensitive = true,
                .meaning = "Stiffness of the spring that a runner of this mass, contact and flight "
                           "time would be.",
                .traps = "A model, not a measurement of force; on the level and with flight only.",
                .source = "Morin 2005, J Appl Biomech 21:167 (within 0.7-6.9 % of force plates); "
                          "Meyer 2023, Int J Sports Med "
                          "44:673 (not on slopes).",
                .more = "the body's spring is stiffer by {}",
                .less = "the body's spring is softer by {}",
                .same = "vertical stiffness",
                .clipFormula = formula::verticalStiffness},
        Measure{.id = "k_leg",
                .name = "Leg stiffness",
                .unit = Unit::KilonewtonPerMetre,
                .positive = "stiffer",
                .feet = Feet::Each,
                .over = Over::Clip,
                .instantWords = "mean step",
                .floor = 0.5,
                .betweenDays = 0.5,
                .withSpeed = WithSpeed::Rises,
                .speedSensitive = true,
                .meaning = "Stiffness of the leg as a spring, from contact, flight, mass, leg "
                           "length and speed.",
                .traps = "1 ms of contact time is 0.9 %; on the level and with flight only.",
                .source = "Morin 2005, J Appl Biomech 21:167; Zandbergen 2023, Gait Posture 99:60 "
                          "(falls with tiredness).",
                .more = "the leg is stiffer by {}",
                .less = "the leg is softer by {}",
                .same = "leg stiffness",
                .clipFormula = formula::legStiffness},
    };
}

} // namespace latemile
