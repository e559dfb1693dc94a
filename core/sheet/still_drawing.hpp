// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/scene/plane.hpp"
#include "core/sheet/still.hpp"

#include <optional>
#include <vector>

namespace latemile {

/// The near side of the body on one frame: a line or two a limb, from ear to toe, where both ends
/// are marked.
[[nodiscard]] std::vector<StillLine> nearSegments(const Marking& marking, FrameNumber frame);
[[nodiscard]] std::vector<StillMark> nearLandmarks(const Marking& marking, FrameNumber frame);

/// The lines and arcs of a measure on a frame, in pixels, with the place of its label; nothing
/// where the measure is not drawn or a landmark is missing. Verticals follow the scene's plumb
/// line, not the picture's edge.
[[nodiscard]] std::optional<StillMeasured> drawingOf(const Measure& measure, const Marking& marking,
                                                     FrameNumber frame, const Plane& plane);

/// A vertical through `point` from row `top` to row `bottom` of the picture.
[[nodiscard]] StillLine plumbThrough(PixelPoint point, double top, double bottom,
                                     const Plane& plane);

} // namespace latemile
