// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/recipe.hpp"

#include <vector>

namespace latemile::maker {

/// The numbers one way of running hangs on; centimetres, seconds, degrees. Fatigue moves them from
/// fresh towards late: contact longer, steps slower, foot further ahead on a straighter knee, head
/// and trunk forward.
struct Gait {
    explicit Gait(const RunnerRecipe& recipe);

    double beltSpeed; ///< cm/s
    double stepTime;
    double contactTime;
    double footAhead;     ///< ankle ahead of its hip at contact
    double kneeAtContact; ///< flexion
    double landingPitch;  ///< of the shoe at contact; positive: toe up
    double flatUntil;     ///< share of the stance at which the heel starts to lift
    double heelRise;      ///< turn of the rear shoe up to toe-off
    double toeRoll;       ///< turn of the front of the shoe up to toe-off
    double bounce;        ///< half of the pelvis' rise and fall
    double pelvisTurn;    ///< half range about the vertical
    double pelvisDrop;    ///< towards the swing side, half range
    double shoulderTurn;  ///< half range about the vertical
    double lean;          ///< of the trunk, forward
    double headAngle;     ///< from mid-shoulder to ear, forward of vertical
    double armSwing;      ///< half range of the upper arm
    double elbowBend;     ///< 0 is straight
    double footSpread;    ///< of a foot from the middle line at its landing
};

/// One landing of one foot, with what sets it apart from the others.
struct Footfall {
    Foot foot{};
    double contact{};      ///< s, exact
    double toeOff{};       ///< s, exact
    double footAhead{};    ///< cm, as in Gait
    double landingPitch{}; ///< degrees
    double spread{};       ///< cm, signed: z of the foot's middle
};

/// The landings of a run from at least two strides before time 0 to two after `duration`, in order
/// of time, feet alternating.
[[nodiscard]] std::vector<Footfall> footfalls(const RunnerRecipe& recipe, const Gait& gait,
                                              double duration);

} // namespace latemile::maker
