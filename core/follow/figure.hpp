// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "core/quantities.hpp"

#include <array>
#include <optional>
#include <vector>

namespace latemile {

/// One side's landmarks on one frame, in pixels of the upright picture.
using Figure = std::array<std::optional<PixelPoint>, landmarkCount>;

[[nodiscard]] constexpr std::size_t placeOf(Landmark landmark)
{
    return static_cast<std::size_t>(landmark);
}

/// A part of the body that hardly bends: its landmarks, and how far it reaches to both sides of the
/// line between them, in centimetres of a grown runner.
struct RigidPart {
    std::array<Landmark, 3> landmarks; ///< of a bone the third repeats the second
    double halfWidthCm{};
    double lengthCm{}; ///< between the first and the second, of a runner 170 cm tall
    [[nodiscard]] constexpr bool isFoot() const { return landmarks[1] != landmarks[2]; }
};

/// Trunk, upper arm, forearm, thigh, shank and foot of a side view. Lengths by Drillis & Contini
/// 1966, as shares of stature (in Winter, Biomechanics and Motor Control of Human Movement, fig.
/// 4.1; the trunk from memory); widths are a choice of this project.
inline constexpr std::array rigidParts{
    RigidPart{{Landmark::Shoulder, Landmark::Hip, Landmark::Hip}, 5.0, 49.0},
    RigidPart{{Landmark::Shoulder, Landmark::Elbow, Landmark::Elbow}, 2.5, 31.6},
    RigidPart{{Landmark::Elbow, Landmark::Wrist, Landmark::Wrist}, 2.0, 24.8},
    RigidPart{{Landmark::Hip, Landmark::Knee, Landmark::Knee}, 4.0, 41.7},
    RigidPart{{Landmark::Knee, Landmark::Ankle, Landmark::Ankle}, 2.5, 41.8},
    RigidPart{{Landmark::Ankle, Landmark::Heel, Landmark::Toe}, 0.0, 9.0},
};

inline constexpr std::size_t footPart = 5; ///< of rigidParts
static_assert(rigidParts[footPart].isFoot());

/// How many pixels a centimetre of the runner takes, by the lengths of the parts that are marked:
/// their median; nothing without two landmarks of one part. Good to a tenth, which is enough to
/// choose windows by; no reading uses it.
[[nodiscard]] std::optional<double> roughPixelsPerCm(const std::vector<Figure>& figures);

} // namespace latemile
