// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"
#include "ui/picture/ink.hpp"

#include <functional>
#include <vector>

class QPainter;

namespace latemile::ui {

/// The landmarks of one frame joined to a figure; what is not confirmed is grey.
void paintFigure(QPainter& painter, const PictureMap& map, const Marking& marking,
                 FrameNumber frame, const FigureInk& ink);

/// The landmarks a line of the figure joins to this one.
[[nodiscard]] std::vector<Landmark> neighboursOf(Landmark landmark);

/// The same with every place moved on its way, for a ghost laid over another clip's picture.
void paintFigure(QPainter& painter, const PictureMap& map, const Marking& marking,
                 FrameNumber frame, const FigureInk& ink,
                 const std::function<PixelPoint(PixelPoint)>& moved);

} // namespace latemile::ui
