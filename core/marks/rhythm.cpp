// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/rhythm.hpp"

#include "core/median.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace latemile {

namespace {

// An easy run: contact 271-284 ms and flight 80-112 ms at 2.9 m/s, shorter contact when faster;
// here only to say where to look first.
constexpr Seconds usualStance{0.240};
constexpr Seconds usualFlight{0.100};

constexpr double shortest = 0.7;
constexpr double longest = 1.4;
/// So many values are a rhythm that one more can break.
constexpr std::size_t enoughOthers = 3;

std::string milliseconds(Seconds time)
{
    return std::to_string(std::lround(time.count() * 1000.0)) + " ms";
}

std::string stepName(std::size_t at)
{
    return "step " + std::to_string(at + 1);
}

std::string footName(Foot foot)
{
    return std::string(nameOf(foot));
}

/// The rhythm that most of the clip keeps.
struct Rhythm {
    Seconds step{usualStance + usualFlight};
    Seconds stance{usualStance};
    bool knowsStep{};
    bool knowsStance{};
};

Rhythm rhythmOf(const std::vector<Stance>& stances)
{
    std::vector<Seconds> steps;
    std::vector<Seconds> onGround;
    for (std::size_t i = 0; i < stances.size(); ++i) {
        if (stances[i].toeOff) {
            onGround.push_back(*stances[i].toeOff - stances[i].contact);
        }
        if (i + 1 < stances.size() && stances[i + 1].foot != stances[i].foot) {
            steps.push_back(stances[i + 1].contact - stances[i].contact);
        }
    }
    Rhythm rhythm;
    if (!onGround.empty()) {
        rhythm.stance = upperMedianOf(onGround);
        rhythm.step = rhythm.stance + usualFlight;
    }
    if (!steps.empty()) {
        rhythm.step = upperMedianOf(steps);
    }
    rhythm.knowsStep = steps.size() >= enoughOthers;
    rhythm.knowsStance = onGround.size() > enoughOthers;
    return rhythm;
}

bool isOdd(Seconds value, Seconds usual)
{
    return value < shortest * usual || value > longest * usual;
}

RhythmFault sameFootAgain(const std::vector<Stance>& stances, std::size_t i, const Rhythm& rhythm)
{
    const Foot foot = stances[i].foot;
    const Seconds apart = stances[i + 1].contact - stances[i].contact;
    if (apart < 1.5 * rhythm.step) {
        return {RhythmFault::Kind::DoubledContact, foot, stances[i + 1].contact,
                "The " + footName(foot) + " foot lands twice within " + milliseconds(apart) + " (" +
                    stepName(i) + " and " + stepName(i + 1) +
                    "): one of the two contacts is too many."};
    }
    return {RhythmFault::Kind::MissedContact, otherFoot(foot), stances[i].contact + apart / 2.0,
            "Between " + stepName(i) + " and " + stepName(i + 1) + " a contact of the " +
                footName(otherFoot(foot)) + " foot is missing."};
}

std::optional<RhythmFault> oddInterval(const std::vector<Stance>& stances, std::size_t i,
                                       const Rhythm& rhythm)
{
    const Seconds apart = stances[i + 1].contact - stances[i].contact;
    if (!rhythm.knowsStep || !isOdd(apart, rhythm.step)) {
        return std::nullopt;
    }
    const std::string between = milliseconds(apart) + " lie between " + stepName(i) + " and " +
                                stepName(i + 1) + ", the others are " + milliseconds(rhythm.step) +
                                " apart: ";
    if (apart > 2.5 * rhythm.step) {
        return RhythmFault{RhythmFault::Kind::MissedContact, stances[i + 1].foot,
                           stances[i].contact + rhythm.step,
                           between + "contacts of both feet are missing."};
    }
    return RhythmFault{RhythmFault::Kind::OddInterval, stances[i + 1].foot, stances[i + 1].contact,
                       between + "look at both contacts and at the names of the feet."};
}

std::optional<RhythmFault> betweenContacts(const std::vector<Stance>& stances, std::size_t i,
                                           const Rhythm& rhythm)
{
    if (stances[i + 1].foot == stances[i].foot) {
        return sameFootAgain(stances, i, rhythm);
    }
    return oddInterval(stances, i, rhythm);
}

/// A toe-off is passed over once a later one is marked; before that the coach is on the way.
bool isPassedOver(const std::vector<Stance>& stances, std::size_t i)
{
    return !stances[i].toeOff &&
           std::any_of(stances.begin() + static_cast<std::ptrdiff_t>(i) + 1, stances.end(),
                       [](const Stance& later) { return later.toeOff.has_value(); });
}

std::optional<RhythmFault> ofStance(const std::vector<Stance>& stances, std::size_t i,
                                    const Rhythm& rhythm)
{
    const Stance& stance = stances[i];
    if (isPassedOver(stances, i)) {
        return RhythmFault{
            RhythmFault::Kind::MissedToeOff, stance.foot, stance.contact + rhythm.stance,
            "The toe-off of " + stepName(i) + " (" + footName(stance.foot) + ") is missing."};
    }
    if (!stance.toeOff) {
        return std::nullopt;
    }
    const Seconds onGround = *stance.toeOff - stance.contact;
    if (rhythm.knowsStance && isOdd(onGround, rhythm.stance)) {
        return RhythmFault{RhythmFault::Kind::OddStance, stance.foot, *stance.toeOff,
                           "On " + stepName(i) + " the foot is on the ground for " +
                               milliseconds(onGround) + ", on the others for " +
                               milliseconds(rhythm.stance) + ": look at its contact and toe-off."};
    }
    if (i + 1 < stances.size() && stances[i + 1].foot != stance.foot &&
        *stance.toeOff >= stances[i + 1].contact) {
        return RhythmFault{RhythmFault::Kind::LateToeOff, stance.foot, *stance.toeOff,
                           "The toe-off of " + stepName(i) + " is not before the contact of " +
                               stepName(i + 1) + ": look at both."};
    }
    return std::nullopt;
}

} // namespace

std::vector<RhythmFault> rhythmFaults(const std::vector<Stance>& stances)
{
    const Rhythm rhythm = rhythmOf(stances);
    std::vector<RhythmFault> faults;
    for (std::size_t i = 0; i < stances.size(); ++i) {
        if (auto fault = ofStance(stances, i, rhythm)) {
            faults.push_back(std::move(*fault));
        }
        if (i + 1 < stances.size()) {
            if (auto fault = betweenContacts(stances, i, rhythm)) {
                faults.push_back(std::move(*fault));
            }
        }
    }
    std::ranges::stable_sort(faults, {}, &RhythmFault::at);
    return faults;
}

std::optional<ExpectedEvent> nextExpected(const std::vector<Stance>& stances)
{
    if (stances.empty()) {
        return std::nullopt;
    }
    const Rhythm rhythm = rhythmOf(stances);
    const Stance& last = stances.back();
    if (!last.toeOff) {
        return ExpectedEvent{last.foot, true, last.contact + rhythm.stance};
    }
    // A step that was cut short must not let the next contact come before its own toe-off.
    return ExpectedEvent{otherFoot(last.foot), false,
                         std::max(last.contact + rhythm.step, *last.toeOff)};
}

} // namespace latemile
