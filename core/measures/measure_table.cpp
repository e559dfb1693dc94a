// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/formulas.hpp"
#include "core/measures/measure.hpp"

namespace latemile {

namespace {

using enum Landmark;
using Rate = ValueRate::Of;

// Placement error of a difference between filming days, one SD: the published smallest detectable
// difference over 1.96 where there is one, else these (A = choice of this project).
constexpr double angleBetweenDays = 2.0;  // degrees (A)
constexpr double offsetBetweenDays = 1.4; // centimetres (A)
constexpr double timeBetweenDays = 5.0;   // milliseconds (A)
constexpr double shankBetweenDays =
    4.8 / 1.96; // Dingenen 2018, Phys Ther Sport 33:40: SDD 2.2 to 4.8 degrees
constexpr double kneeBetweenDays =
    4.3 / 1.96; // Guadagnin 2025, Braz J Mot Behav 19: MDC up to 4.3 degrees

constexpr std::string_view ownChoice =
    "Definition and floor: choice of this project; no published norm found.";
constexpr std::string_view runnerTimes = "Karamanidis & Arampatzis 2005, J Exp Biol: contact "
                                         "271-284 ms, flight 80-112 ms at an easy pace.";

std::vector<Measure> upperBody()
{
    return {
        Measure{.id = "head_forward",
                .name = "Head ahead of shoulder",
                .unit = Unit::Centimetre,
                .positive = "ear ahead of shoulder",
                .feet = Feet::Together,
                .instant = Instant::MidStance,
                .instantWords = "mid-stance",
                .landmarks = {Ear, Shoulder},
                .floor = 1.0,
                .betweenDays = offsetBetweenDays,
                .rateAtMidStance = {Rate::Fixed, 15.0},
                .meaning = "How far the ear is ahead of the shoulder in the middle of stance.",
                .traps = "The shoulder girdle turns with the arms: 10 degrees of turn is about 3 "
                         "cm at the near "
                         "shoulder, so left and right steps are always taken together.",
                .source = ownChoice,
                .more = "the head is carried {} further ahead of the shoulder",
                .less = "the head is carried {} less far ahead of the shoulder",
                .same = "how far the head is carried ahead of the shoulder",
                .drawing = HorizontalGap{Shoulder, Ear},
                .formula = formula::headForward},
        Measure{.id = "head_angle",
                .name = "Head-to-shoulder angle",
                .unit = Unit::Degree,
                .positive = "ear ahead of shoulder",
                .feet = Feet::Together,
                .instant = Instant::MidStance,
                .instantWords = "mid-stance",
                .landmarks = {Ear, Shoulder},
                .floor = 3.0,
                .betweenDays = angleBetweenDays,
                .rateAtMidStance = {Rate::Fixed, 40.0},
                .meaning =
                    "Angle of the line from shoulder to ear off plumb: the same as head ahead of "
                    "shoulder, without needing a scale.",
                .traps = "Turning shoulders and a guessed ear under hair or headphones.",
                .source = ownChoice,
                .more = "the line from shoulder to ear leans {} further forward",
                .less = "the line from shoulder to ear leans {} less far forward",
                .same = "the lean of the line from shoulder to ear",
                .drawing = AngleToPlumb{Shoulder, Ear},
                .formula = formula::headAngle},
        Measure{.id = "neck_length",
                .name = "Neck length",
                .unit = Unit::Centimetre,
                .positive = "longer neck, shoulders low",
                .feet = Feet::Together,
                .instant = Instant::MidStance,
                .instantWords = "mid-stance",
                .landmarks = {Ear, Shoulder},
                .floor = 0.7,
                .betweenDays = offsetBetweenDays,
                .rateAtMidStance = {Rate::Fixed, 8.0},
                .meaning =
                    "Height of the ear over the shoulder: it shrinks when the shoulders creep up.",
                .traps = "A nod of the head counts too; look at the picture.",
                .source = ownChoice,
                .more = "the ear stands {} higher over the shoulder",
                .less = "the ear stands {} lower over the shoulder",
                .same = "the height of the ear over the shoulder",
                .drawing = VerticalGap{Shoulder, Ear},
                .formula = formula::neckLength},
        Measure{
            .id = "trunk_lean",
            .name = "Trunk lean",
            .unit = Unit::Degree,
            .positive = "leaning forward",
            .feet = Feet::Together,
            .instant = Instant::MidStance,
            .instantWords = "mid-stance",
            .landmarks = {Shoulder, Hip},
            .floor = 2.0,
            .betweenDays = angleBetweenDays,
            .withSpeed = WithSpeed::Rises,
            .rateAtMidStance = {Rate::Fixed, 40.0},
            .meaning = "Lean of the line from hip to shoulder off plumb in the middle of stance.",
            .traps = "A rolled camera adds its roll; the turning shoulder fakes a lean of opposite "
                     "sign half "
                     "a stride later, so left and right steps are always taken together.",
            .source =
                "Teng & Powers 2015, Med Sci Sports Exerc 47:625 (3.6 to 10.8 degrees at 3.4 m/s); "
                "Barrett 2023, Int J Sports Phys Ther 18:606 (rater agreement).",
            .more = "the trunk leans {} further forward",
            .less = "the trunk leans {} less far forward",
            .same = "the lean of the trunk",
            .drawing = AngleToPlumb{Hip, Shoulder},
            .formula = formula::trunkLean},
    };
}

std::vector<Measure> lowerBody()
{
    return {
        Measure{
            .id = "hip_drop",
            .name = "Hip drop in stance",
            .unit = Unit::Centimetre,
            .positive = "hip sank",
            .feet = Feet::Near,
            .instant = Instant::MidStance,
            .instantWords = "contact, mid-stance",
            .landmarks = {Hip},
            .floor = 0.7,
            .betweenDays = offsetBetweenDays,
            .rateAtContact = {Rate::Fixed, 60.0},
            .rateAtMidStance = {Rate::Fixed, 20.0},
            .meaning = "How far the near hip sinks from contact to the middle of stance.",
            .traps =
                "Stands in for pelvic drop and knee yield together; it is not pelvic drop itself.",
            .source = ownChoice,
            .more = "the hip sinks {} further in stance",
            .less = "the hip sinks {} less far in stance",
            .same = "how far the hip sinks in stance",
            .formula = formula::hipDrop},
        Measure{.id = "hips_behind",
                .name = "Hips behind foot",
                .unit = Unit::Centimetre,
                .positive = "hip still behind the ankle",
                .feet = Feet::Near,
                .instant = Instant::MidStance,
                .instantWords = "mid-stance",
                .landmarks = {Hip, Ankle},
                .floor = 1.5,
                .betweenDays = offsetBetweenDays,
                .withSpeed = WithSpeed::Falls,
                .rateAtMidStance = {Rate::Belt, 1.0},
                .meaning = "Where the hip is over the standing foot at half of stance time; below "
                           "zero the hip "
                           "has already passed the ankle.",
                .traps = "One frame late at 120 frames/s is 2 to 3 cm; contact and toe-off must be "
                         "marked well.",
                .source = ownChoice,
                .more = "the hips stay {} further behind the standing foot",
                .less = "the hips are {} further over the standing foot",
                .same = "where the hips are over the standing foot",
                .drawing = HorizontalGap{Hip, Ankle},
                .formula = formula::hipsBehind},
        Measure{.id = "vertical_osc",
                .name = "Bounce",
                .unit = Unit::Centimetre,
                .positive = "bouncier",
                .feet = Feet::Together,
                .over = Over::Stride,
                .instantWords = "stride",
                .landmarks = {Hip},
                .floor = 0.7,
                .betweenDays = offsetBetweenDays,
                .withSpeed = WithSpeed::Falls,
                .speedSensitive = true,
                .meaning = "Highest minus lowest height of the hip within a step, mean of a "
                           "stride's two steps.",
                .traps = "Needs the hip on every frame; a treadmill reads about 1.5 cm less than "
                         "the ground.",
                .source = "Van Hooren 2020, Sports Med 50:785 (treadmill against ground).",
                .more = "the hips bounce {} higher",
                .less = "the hips bounce {} less",
                .same = "the bounce of the hips",
                .formula = formula::verticalOscillation},
        Measure{.id = "foot_ahead",
                .name = "Foot ahead of hip",
                .unit = Unit::Centimetre,
                .positive = "ankle ahead of hip",
                .feet = Feet::Near,
                .instant = Instant::Contact,
                .instantWords = "contact",
                .landmarks = {Hip, Ankle},
                .floor = 1.5,
                .betweenDays = offsetBetweenDays,
                .withSpeed = WithSpeed::Rises,
                .rateAtContact = {Rate::Belt, 1.0},
                .meaning = "How far ahead of the hip the ankle is when the foot lands.",
                .traps = "Read a frame late it is short by 1 to 2.5 cm; the hip is the hardest "
                         "point to mark.",
                .source = "Souza 2016, Phys Med Rehabil Clin N Am 27:217 (distances to the body's "
                          "centre repeat "
                          "poorly).",
                .more = "the foot lands {} further ahead of the hip",
                .less = "the foot lands {} less far ahead of the hip",
                .same = "how far the foot lands ahead of the hip",
                .drawing = HorizontalGap{Hip, Ankle},
                .formula = formula::footAhead},
        Measure{
            .id = "shank_angle",
            .name = "Shank angle at contact",
            .unit = Unit::Degree,
            .positive = "ankle ahead of knee",
            .feet = Feet::Near,
            .instant = Instant::Contact,
            .instantWords = "contact",
            .landmarks = {Knee, Ankle},
            .floor = 2.0,
            .betweenDays = shankBetweenDays,
            .rateAtContact = {Rate::Fixed, 250.0},
            .meaning = "Lean of the shin off plumb when the foot lands.",
            .traps =
                "A rolled camera adds its roll; a frame late is about 2 degrees at 120 frames/s.",
            .source = "Dingenen 2018, Phys Ther Sport 33:40 (between days ICC .73-.92, SDD 2.2-4.8 "
                      "degrees).",
            .more = "the shin reaches {} further forward at contact",
            .less = "the shin is {} nearer to upright at contact",
            .same = "the angle of the shin at contact",
            .drawing = AngleToPlumb{Knee, Ankle},
            .formula = formula::shankAngle},
        Measure{
            .id = "knee_flex_contact",
            .name = "Knee bend at contact",
            .unit = Unit::Degree,
            .positive = "more bent",
            .feet = Feet::Near,
            .instant = Instant::Contact,
            .instantWords = "contact",
            .landmarks = {Hip, Knee, Ankle},
            .floor = 3.0,
            .betweenDays = kneeBetweenDays,
            .rateAtContact = {Rate::Fixed, 300.0},
            .meaning = "Bend of the knee when the foot lands; 0 is straight.",
            .traps =
                "The knee bends at about 300 degrees a second: a frame late is 2.5 degrees at 120 "
                "frames/s; a hip marked too far back straightens it.",
            .source = "Guadagnin 2025, Braz J Mot Behav 19 (SEM up to 1.6, MDC up to 4.3 degrees); "
                      "Damsted "
                      "2015, Int J Sports Phys Ther (single marks between days 9-14 degrees wide).",
            .more = "the foot lands on a knee bent {} more",
            .less = "the foot lands on a knee {} straighter",
            .same = "the bend of the knee at contact",
            .drawing = JointAngle{Hip, Knee, Ankle},
            .formula = formula::kneeFlexContact},
    };
}

std::vector<Measure> timings()
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
                .rateAtContact = {Rate::Belt, 0.01},
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
    };
}

std::vector<Measure> wholeTable()
{
    std::vector<Measure> table;
    for (auto part : {upperBody(), lowerBody(), timings()}) {
        table.insert(table.end(), part.begin(), part.end());
    }
    return table;
}

} // namespace

std::span<const Measure> measureTable()
{
    static const std::vector<Measure> table = wholeTable();
    return table;
}

} // namespace latemile
