// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/foot.hpp"

#include <algorithm>

namespace latemile::maker {

namespace {
constexpr double toeRollFrom = 0.75;

/// Falls from 1 to 0 over the landing, at once at full rate as a real foot does, and comes to rest
/// without a jerk.
double landingLeft(double share)
{
    const double w = std::min(share / flatFrom, 1.0);
    return (1.0 - w) * (1.0 - w) * (1.0 + 0.5 * w);
}

/// Rises from 0 at `from` to 1 at the end of the stance, starting at rest.
double risen(double share, double from)
{
    const double w = std::max((share - from) / (1.0 - from), 0.0);
    return w * w * (1.5 - 0.5 * w);
}

ShoePose shoeAboutHeel(const Body& body, Vec2 heel, double pitch)
{
    return {.heel = heel,
            .ankle = heel + turned(body.ankle, pitch),
            .ball = heel + turned(body.ball, pitch),
            .toe = heel + turned(body.toe, pitch),
            .pitch = pitch,
            .bend = 0.0};
}

ShoePose shoeAboutTip(const Body& body, Vec2 tip, double pitch, double frontPitch)
{
    const Vec2 ball = tip + turned(body.ball - body.toePivot, frontPitch);
    return {.heel = ball - turned(body.ball, pitch),
            .ankle = ball + turned(body.ankle - body.ball, pitch),
            .ball = ball,
            .toe = tip + turned(body.toe - body.toePivot, frontPitch),
            .pitch = pitch,
            .bend = frontPitch - pitch};
}
} // namespace

ShoePose shoeOnGround(const Body& body, const Gait& gait, const Footfall& fall,
                      double heelAtContact, double seconds)
{
    const double share = (seconds - fall.contact) / (fall.toeOff - fall.contact);
    const Vec2 heel{heelAtContact - gait.beltSpeed * (seconds - fall.contact), 0.0};
    const double landing = radians(fall.landingPitch) * landingLeft(share);
    if (fall.landingPitch > 0.0 && share < flatFrom) {
        return shoeAboutHeel(body, heel, landing);
    }
    const double pitch = landing - radians(gait.heelRise) * risen(share, gait.flatUntil);
    const double frontPitch = -radians(gait.toeRoll) * risen(share, toeRollFrom);
    return shoeAboutTip(body, heel + body.toePivot, pitch, frontPitch);
}

ShoePose shoeInAir(const Body& body, Vec2 ankle, double pitch, double bend)
{
    const Vec2 heel = ankle - turned(body.ankle, pitch);
    const Vec2 ball = heel + turned(body.ball, pitch);
    return {.heel = heel,
            .ankle = ankle,
            .ball = ball,
            .toe = ball + turned(body.toe - body.ball, pitch + bend),
            .pitch = pitch,
            .bend = bend};
}

} // namespace latemile::maker
