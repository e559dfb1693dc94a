// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/gait.hpp"

#include "sample_clips/maker/geometry.hpp"
#include "sample_clips/maker/random.hpp"

#include <algorithm>
#include <cmath>

namespace latemile::maker {

namespace {
// Keys of the random numbers; a clip of a seed changes when these do.
enum Channel : std::uint64_t { Start = 1, StepTime, ContactTime, Ahead, Pitch, Spread, Sides };

double landingPitchOf(Landing landing)
{
    switch (landing) {
    case Landing::Rearfoot:
        return 15.0;
    case Landing::Midfoot:
        return 3.5;
    case Landing::Forefoot:
        return -8.0;
    }
    return 0.0;
}

// Contact shortens by about 0.7 % for each 1 % of speed; 0.262 s at 2.7 m/s lies within the
// treadmill groups of Karamanidis and Arampatzis (2005).
double contactTimeAt(double speed)
{
    return 0.262 * std::pow(speed / 2.7, -0.7);
}

// A longer way on the ground is shared by the parts before and behind the hip.
double stretch(double speed)
{
    return std::pow(speed * contactTimeAt(speed) / (2.7 * 0.262), 0.55);
}
} // namespace

Gait::Gait(const RunnerRecipe& recipe)
    : beltSpeed(100.0 * recipe.speed),
      stepTime(60.0 / recipe.stepRate * blend(1.0, 1.022, recipe.fatigue)),
      // Even a slow runner leaves the ground for a moment.
      contactTime(std::min(contactTimeAt(recipe.speed) * blend(1.0, 1.07, recipe.fatigue) *
                               (recipe.landing == Landing::Forefoot ? 0.95 : 1.0),
                           0.9 * stepTime)),
      footAhead(recipe.stature / 167.0 * stretch(recipe.speed) * blend(21.0, 23.6, recipe.fatigue)),
      // Those who land off the heel, and faster runners, land on a more bent knee.
      kneeAtContact(blend(21.0, 19.0, recipe.fatigue) + 1.5 * (recipe.speed - 2.7) +
                    (recipe.landing == Landing::Rearfoot ? 0.0 : 2.5)),
      landingPitch(landingPitchOf(recipe.landing)), flatUntil(0.54),
      heelRise(50.0 * stretch(recipe.speed)), toeRoll(16.0),
      bounce(recipe.stature / 167.0 * blend(3.3, 3.6, recipe.fatigue)), pelvisTurn(5.0),
      pelvisDrop(blend(3.5, 4.6, recipe.fatigue)), shoulderTurn(9.0),
      lean(blend(6.0, 9.5, recipe.fatigue)), headAngle(blend(17.0, 25.0, recipe.fatigue)),
      armSwing(blend(30.0, 26.0, recipe.fatigue)), elbowBend(92.0), footSpread(3.2)
{
    if (recipe.planar) {
        pelvisTurn = pelvisDrop = shoulderTurn = footSpread = 0.0;
    }
}

std::vector<Footfall> footfalls(const RunnerRecipe& recipe, const Gait& gait, double duration)
{
    const auto seed = recipe.seed;
    const double spread = recipe.variability;
    // Nobody's two sides are quite alike: up to 1 % of step time, up to 0.5 cm of foot ahead.
    const double side = spread * (2.0 * uniform(seed, Sides, 0) - 1.0);
    std::vector<Footfall> falls;
    Foot foot = uniform(seed, Start, 0) < 0.5 ? Foot::Left : Foot::Right;
    double contact = -gait.stepTime * (5.0 + 0.9 * uniform(seed, Start, 1));
    for (std::uint64_t i = 0; contact < duration + 6.0 * gait.stepTime; ++i) {
        const double sign = foot == Foot::Left ? 1.0 : -1.0;
        Footfall fall{.foot = foot, .contact = contact};
        fall.toeOff =
            contact + gait.contactTime * (1.0 + 0.012 * spread * normal(seed, ContactTime, i) -
                                          0.008 * sign * side);
        fall.footAhead = gait.footAhead + spread * 0.7 * normal(seed, Ahead, i) + 0.5 * sign * side;
        fall.landingPitch = gait.landingPitch + spread * 0.8 * normal(seed, Pitch, i);
        fall.spread = gait.footSpread == 0.0
                          ? 0.0
                          : -sign * (gait.footSpread + spread * 0.5 * normal(seed, Spread, i));
        falls.push_back(fall);
        contact += gait.stepTime *
                   (1.0 + 0.010 * spread * normal(seed, StepTime, i) + 0.006 * sign * side);
        foot = other(foot);
    }
    return falls;
}

} // namespace latemile::maker
