// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/body.hpp"
#include "sample_clips/maker/gait.hpp"

namespace latemile::maker {

/// A shoe seen from its side, in cm: x forward, y up. It bends at the ball.
struct ShoePose {
    Vec2 heel;
    Vec2 ankle;
    Vec2 ball;
    Vec2 toe;
    double pitch{}; ///< radians, of the part behind the ball; positive: toe up
    double bend{};  ///< radians, of the part before the ball against the part behind it
};

/// The shoe on the ground, exactly: it rolls over the heel's corner, lies flat, lifts its heel over
/// the ball and leaves over the tip, and each of these points in its turn moves with the belt and
/// with nothing else. `heelAtContact` is where the flat shoe's heel would have been at contact.
/// Just beyond the stance the formulas go on, so that slopes at its ends can be taken.
[[nodiscard]] ShoePose shoeOnGround(const Body& body, const Gait& gait, const Footfall& fall,
                                    double heelAtContact, double seconds);

/// The shoe in the air, hung from its ankle. Angles in radians, as in ShoePose.
[[nodiscard]] ShoePose shoeInAir(const Body& body, Vec2 ankle, double pitch, double bend);

/// Share of the stance from which the whole sole lies on the ground, until Gait::flatUntil.
inline constexpr double flatFrom = 0.24;

} // namespace latemile::maker
