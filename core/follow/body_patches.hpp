// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/figure.hpp"

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace latemile {

/// One side's landmarks in the reduced part of the picture.
using ReducedFigure = std::array<std::optional<cv::Point2d>, landmarkCount>;

/// Points on the body that move together, and the landmarks that move with them.
struct BodyPatch {
    std::vector<Landmark> landmarks;
    /// Spread over the part alike whatever its place: the i-th point of a part is the same spot of
    /// the body on every frame.
    std::vector<cv::Point2d> points;
    std::optional<std::size_t> part{}; ///< which of rigidParts; none: a disc around one landmark
};

/// The points of one of rigidParts; none where one of its landmarks is missing or two lie on one
/// spot.
[[nodiscard]] std::optional<BodyPatch> patchOf(std::size_t part, const ReducedFigure& figure,
                                               double pixelsPerCm);

/// All whole parts of a figure, the toes of its foot besides, since they bend against it, and a
/// disc around each landmark that belongs to no part.
[[nodiscard]] std::vector<BodyPatch> patchesOf(const ReducedFigure& figure, double pixelsPerCm);

/// What a part looks like: brightness at its points.
using PartLook = std::vector<float>;
/// Of each of rigidParts that was seen whole.
using PartLooks = std::array<std::optional<PartLook>, rigidParts.size()>;
[[nodiscard]] PartLook lookOf(const BodyPatch& patch, const cv::Mat& halfSizePicture);

/// Whether two looks can be of one part: correlated by 0.5 at least (a foot, which is narrow and
/// shows other ground behind it: 0.2) and within 20 of 255 levels of each other's mean (a foot:
/// 40). Choices of this project: on modelled runners a leg in sight keeps 0.8 over 0.15 s, one that
/// another leg covers falls to 0.4.
[[nodiscard]] bool looksAlike(const RigidPart& part, const PartLook& a, const PartLook& b);

} // namespace latemile
