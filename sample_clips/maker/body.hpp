// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/geometry.hpp"

namespace latemile::maker {

/// Lengths of one person, in cm. Segment lengths are fractions of stature by Drillis and Contini
/// (1966), in Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1.
struct Body {
    explicit Body(double stature);

    double stature;
    double thigh;         ///< hip to knee
    double shank;         ///< knee to ankle
    double trunk;         ///< mid-hip to mid-shoulder
    double upperArm;      ///< shoulder to elbow
    double forearm;       ///< elbow to wrist
    double ear;           ///< mid-shoulder to the line between the ears
    double halfHips;      ///< mid-hip to a hip joint
    double halfShoulders; ///< mid-shoulder to a shoulder
    double halfHead;      ///< to an ear
    double shoe;          ///< heel to tip

    // Places in the shoe, seen from its side: x forward from the heel's back lower corner, y up
    // from the sole.
    Vec2 ankle;
    Vec2 ball;     ///< on the sole, where the shoe bends
    Vec2 toePivot; ///< on the sole, what leaves the ground last
    Vec2 toe;      ///< the front of the shoe
};

} // namespace latemile::maker
