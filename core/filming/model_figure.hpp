// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "core/marks/steps.hpp"
#include "core/quantities.hpp"

#include <span>

namespace latemile {

/// A landmark of a runner of ordinary size in one step, side view: cm, x forward of the hip, y
/// above the ground. The figure of DEVELOPERS.md, "Worked example", at its 0.4 cm a pixel.
struct FigurePoint {
    Landmark landmark;
    PlanePoint contact;
    PlanePoint midStance;
    PlanePoint toeOff;
    [[nodiscard]] PlanePoint at(Instant instant) const;
};
[[nodiscard]] std::span<const FigurePoint> modelFigure();

} // namespace latemile
