// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/runner_pictures.hpp"

#include <vector>

namespace latemile {

/// How far off a guess may be: some 15 centimetres after a stride, a few from one frame to another.
enum class Search { Wide, Narrow };

/// Where points were found; one each, in their order.
struct FoundPoints {
    std::vector<cv::Point2f> at;
    std::vector<bool> cameBack; ///< whether the way back ends where the point began
};

/// Follows points from one frame to others by pyramidal Lucas-Kanade flow there and back (Lucas &
/// Kanade 1981; Bouguet 2001). The slopes of the first frame's brightness are made once: `pictures`
/// must outlive it, and one thread at a time may ask.
class PointFlow {
public:
    PointFlow(const RunnerPictures& pictures, FrameNumber from, Search search);
    /// `guesses` where on `to` each of `points` is looked for first. None come back where the part
    /// of the picture that holds them is too small.
    [[nodiscard]] FoundPoints found(const std::vector<cv::Point2f>& points,
                                    const std::vector<cv::Point2f>& guesses, FrameNumber to);

private:
    void prepare(const cv::Rect& needed);
    [[nodiscard]] cv::Rect wholeGrid() const;

    const RunnerPictures& m_pictures;
    FrameNumber m_from;
    int m_levels;
    cv::Rect m_part;                  ///< for which slopes are made; empty before the first asking
    RunnerPictures::Pyramid m_sloped; ///< of it, each level followed by its slopes
};

} // namespace latemile
