// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/figure_flow.hpp"
#include "core/follow/recurrence.hpp"

namespace latemile {

/// A figure carried straight to a frame on which the runner stands alike.
struct StraightCarry {
    CarriedFigure figure;
    /// Per axis, reduced pixels², of the carrying alone: by how far the points around a landmark
    /// agreed, and what differs between two strides.
    std::array<double, landmarkCount> variance{};
};

[[nodiscard]] StraightCarry carriedStraight(const RunnerPictures& pictures, FrameNumber from,
                                            const ReducedFigure& figure, const Recurrence& to);

/// The picture around a figure in which the runner is looked for again, reduced pixels.
[[nodiscard]] cv::Rect2d surroundings(const ReducedFigure& figure, double pixelsPerCm);

} // namespace latemile
