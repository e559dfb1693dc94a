// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "core/quantities.hpp"

#include <QRectF>

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// The hip marked on a frame, or on the marked frame nearest to it; nothing without one.
[[nodiscard]] std::optional<PixelPoint> hipNear(const Marking& marking, FrameNumber frame);

/// The part of the picture that holds the athlete on a frame: so many centimetres around the hip
/// marked on it or on the marked frame nearest to it. The same size in centimetres for every clip,
/// so that two of them are shown at one scale. Nothing without a scale or a hip.
[[nodiscard]] std::optional<QRectF> athletePart(const ClipDocument& clip, FrameNumber frame);

} // namespace latemile::ui
