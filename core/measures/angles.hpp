// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

namespace latemile {

/// Into (-180, 180] degrees.
[[nodiscard]] double wrapDegrees(double degrees);

/// Angle whose tangent is a / b, degrees.
[[nodiscard]] double atan2Degrees(double a, double b);

/// All in degrees, in the runner's plane (x forward, y up); signs hold for both travel directions.

/// Lean of the segment from `lower` to `upper` off plumb; + upper end ahead.
[[nodiscard]] double leanDegrees(PlanePoint lower, PlanePoint upper);
/// Thigh off plumb; + knee ahead of hip.
[[nodiscard]] double thighDegrees(PlanePoint hip, PlanePoint knee);
/// Shank off plumb; + ankle ahead of knee.
[[nodiscard]] double shankDegrees(PlanePoint knee, PlanePoint ankle);
/// Sole against the level; + toe up.
[[nodiscard]] double footDegrees(PlanePoint heel, PlanePoint toe);
/// Signed knee flexion, thigh - shank; hyperextension is negative.
[[nodiscard]] double kneeFlexionDegrees(PlanePoint hip, PlanePoint knee, PlanePoint ankle);
/// Inner angle at `joint`, 0 to 180; 180 = straight.
[[nodiscard]] double innerAngleDegrees(PlanePoint end, PlanePoint joint, PlanePoint otherEnd);

} // namespace latemile
