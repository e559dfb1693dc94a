// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/runner_pictures.hpp"

#include <vector>

namespace latemile {

/// A frame on which the runner stands as on another, a whole number of strides away.
struct Recurrence {
    FrameNumber frame;
    cv::Point2d shift; ///< how far the runner moved meanwhile, reduced pixels
    double likeness{}; ///< correlation of the two pictures of the runner, -1 to 1
};

/// Finds where a runner's stride comes round again. Running repeats itself: two pictures a stride
/// apart are so alike that marks carried from one straight to the other are as good as after one
/// frame, however many strides lie between, while marks handed on from frame to frame drift.
class StrideRecurrences {
public:
    /// What stays where it is (the mean of all pictures) is taken out first; on pictures reduced to
    /// 0.4 pixels a centimetre.
    /// `times` of the frames of `pictures`, in order, real seconds.
    StrideRecurrences(const RunnerPictures& pictures, std::vector<double> times);

    /// One frame a stride, before and after `frame`, in rising order; without `frame` itself.
    /// `around`: the runner on that frame, reduced pixels. A stride lasts 0.5 to 1.0 s (120 to 240
    /// steps/min); its next round is looked for within an eighth of it. Empty where no stride's
    /// length is clearly more alike than the others (correlation below 0.5, or the clip is too
    /// short).
    [[nodiscard]] std::vector<Recurrence> of(FrameNumber frame, const cv::Rect2d& around) const;

private:
    struct Likeness {
        double value{-1.0};
        cv::Point2d shift;
    };
    [[nodiscard]] Likeness likeness(const cv::Mat& runner, cv::Rect where,
                                    std::int64_t other) const;
    [[nodiscard]] double timeOf(std::int64_t frame) const;

    std::int64_t m_first{};
    double m_share{}; ///< of the reduced pictures' size
    std::vector<double> m_times;
    std::vector<cv::Mat> m_moving; ///< what moves on each frame
};

} // namespace latemile
