// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/angles.hpp"

#include <cmath>
#include <numbers>

namespace latemile {

double wrapDegrees(double degrees)
{
    const double turned = std::remainder(degrees, 360.0);
    return turned <= -180.0 ? turned + 360.0 : turned;
}

double atan2Degrees(double a, double b)
{
    return std::atan2(a, b) * 180.0 / std::numbers::pi;
}

double leanDegrees(PlanePoint lower, PlanePoint upper)
{
    return atan2Degrees(upper.x - lower.x, upper.y - lower.y);
}

double thighDegrees(PlanePoint hip, PlanePoint knee)
{
    return atan2Degrees(knee.x - hip.x, hip.y - knee.y);
}

double shankDegrees(PlanePoint knee, PlanePoint ankle)
{
    return atan2Degrees(ankle.x - knee.x, knee.y - ankle.y);
}

double footDegrees(PlanePoint heel, PlanePoint toe)
{
    return atan2Degrees(toe.y - heel.y, toe.x - heel.x);
}

double kneeFlexionDegrees(PlanePoint hip, PlanePoint knee, PlanePoint ankle)
{
    return wrapDegrees(thighDegrees(hip, knee) - shankDegrees(knee, ankle));
}

double innerAngleDegrees(PlanePoint end, PlanePoint joint, PlanePoint otherEnd)
{
    const double ax = end.x - joint.x;
    const double ay = end.y - joint.y;
    const double bx = otherEnd.x - joint.x;
    const double by = otherEnd.y - joint.y;
    return std::abs(atan2Degrees(ax * by - ay * bx, ax * bx + ay * by));
}

} // namespace latemile
