// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/figure_flow.hpp"
#include "core/follow/ways.hpp"

#include <vector>

namespace latemile {

/// How the parts of the body moved to a frame from the one their points were last laid out on.
struct CarriedFrame {
    std::int64_t key{-1}; ///< that frame, counted from the stretch's first; -1: nothing was carried
    FigureMoves moves;
};
/// One a frame of the stretch.
using FlowRecord = std::vector<CarriedFrame>;

/// What was found while a figure was followed both ways: with it a corrected mark is carried on
/// without looking at any picture again.
struct FlowRecords {
    FlowRecord forwards;
    FlowRecord backwards;
};

/// What came of carrying one way.
struct Walked {
    Ways ways;
    Closures closures;
    FlowRecord record;
};

/// Paths of all landmarks, and the moves they came by.
struct FollowedFigure {
    FigurePaths paths;
    FlowRecords flow;
};

[[nodiscard]] Closures bothClosures(Closures a, const Closures& b);

/// The paths from other seeds, by the moves recorded. With the seeds of the record they are the
/// paths it came with. A landmark is carried by the moves of the parts it belonged to then; one
/// that had no seed near in the record stays where its seeds are.
[[nodiscard]] FigurePaths replayed(const FlowRecords& flow, const std::vector<double>& times,
                                   const FigureSeeds& seeds, double pixelsPerCm);

} // namespace latemile
