// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/body_patches.hpp"
#include "core/follow/point_flow.hpp"
#include "core/follow/rigid_move.hpp"
#include "core/follow/runner_pictures.hpp"

namespace latemile {

[[nodiscard]] ReducedFigure reducedFigure(const Figure& figure, const RunnerPictures& pictures);

/// Where a figure comes to lie on another frame.
struct CarriedFigure {
    ReducedFigure at; ///< nothing where the landmark was lost on the way
    std::array<double, landmarkCount>
        spread{}; ///< of the flow around each landmark, reduced pixels; 0 where it was lost
};

/// How one part of the body, or the disc around a lone landmark, moved.
struct PatchMove {
    std::size_t patch{}; ///< place in rigidParts; beyond them the landmark's own, of a disc
    std::vector<Landmark> landmarks;
    RigidMove move;
};
using FigureMoves = std::vector<PatchMove>;

/// Several parts say where a joint goes: the surer one counts more.
[[nodiscard]] double weightOf(const RigidMove& move);
[[nodiscard]] CarriedFigure carriedBy(const FigureMoves& moves, const ReducedFigure& figure);

/// How the parts of a figure move from one frame to others: points all over each part of the body
/// are followed there and back, those that do not come back are left out, and one rigid move a part
/// is fitted to the others. So a joint goes with its limbs even where skin is smooth, and an edge
/// of the background does not hold it back. A landmark without a whole part goes by the points
/// around it. `pictures` must outlive it.
class FigureFlow {
public:
    FigureFlow(const RunnerPictures& pictures, FrameNumber from, const ReducedFigure& figure,
               Search search);
    /// `guess` says where the landmarks are to be looked for first; empty ones: where they were. A
    /// part of which `looks` tells how it looked, and which does not look so where it was carried
    /// to, is covered or has gone over to something else (the other leg): it is left out.
    [[nodiscard]] FigureMoves movesTo(FrameNumber to, const ReducedFigure& guess,
                                      const PartLooks& looks);

private:
    const RunnerPictures& m_pictures;
    ReducedFigure m_figure;
    std::vector<BodyPatch> m_patches;
    std::vector<cv::Point2f> m_points; ///< of all patches, in their order
    PointFlow m_flow;
};
/// Moves to one frame, and where the figure comes to lie by it.
[[nodiscard]] CarriedFigure carryFigure(const RunnerPictures& pictures, FrameNumber from,
                                        const ReducedFigure& figure, FrameNumber to,
                                        const ReducedFigure& guess, const PartLooks& looks,
                                        Search search);

/// How the parts of a figure look on a frame.
[[nodiscard]] PartLooks looksOf(const RunnerPictures& pictures, FrameNumber frame,
                                const ReducedFigure& figure);

} // namespace latemile
