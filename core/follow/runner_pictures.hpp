// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/follow/figure.hpp"

#include <opencv2/core.hpp>

#include <functional>
#include <vector>

namespace latemile {

/// Which frames are followed, and the part of the picture the runner stays in.
struct FollowedStretch {
    FrameNumber first;
    FrameNumber last;
    PixelPoint topLeft; ///< of the part, pixels of the upright picture
    PixelPoint bottomRight;
    double pixelsPerCm{}; ///< roughly; decides how far the pictures are reduced
};

/// Between the upright picture and the reduced part of it in which the runner is followed, where
/// OpenCV counts pixel centres at integers.
struct PictureMap {
    FrameNumber first; ///< of the stretch
    cv::Rect part;
    double reduction{1.0}; ///< pixels of the reduced part a pixel of the upright picture; at most 1
    double pixelsPerCm{};  ///< of the reduced part and the runner, roughly
    [[nodiscard]] cv::Point2d reduced(PixelPoint point) const;
    [[nodiscard]] PixelPoint upright(cv::Point2d point) const;
};

/// The pictures of a stretch, without colour, cut above and below the runner and reduced to at most
/// 3.2 pixels a centimetre: following is no better with more, and slower. Each with its pyramid of
/// ever smaller pictures, as optical flow wants them. Read once, then looked at in any order by any
/// thread.
class RunnerPictures {
public:
    /// The levels of a pyramid, the largest first.
    using Pyramid = std::vector<cv::Mat>;
    /// Half the side of the square of pixels that is compared around a point.
    static constexpr int halfWindow = 5;
    static constexpr int levels = 3; ///< besides the picture itself

    /// `goOn` is asked before each frame with the share done, 0 to 1; false stops
    /// (Error::Kind::Cancelled). A stretch that takes more than 1.5 GiB is refused.
    static Outcome<RunnerPictures> read(ClipReader& clip, const FollowedStretch& stretch,
                                        const std::function<bool(double)>& goOn = {});

    [[nodiscard]] const PictureMap& map() const { return m_map; }
    [[nodiscard]] FrameNumber first() const { return m_map.first; }
    [[nodiscard]] FrameNumber last() const
    {
        return {first().value + static_cast<std::int64_t>(m_pyramids.size()) - 1};
    }
    [[nodiscard]] bool contains(FrameNumber frame) const
    {
        return frame >= first() && frame <= last();
    }
    [[nodiscard]] const Pyramid& pyramid(FrameNumber frame) const
    {
        return m_pyramids[static_cast<std::size_t>(frame.value - first().value)];
    }
    [[nodiscard]] const cv::Mat& picture(FrameNumber frame) const { return pyramid(frame)[0]; }

    [[nodiscard]] cv::Point2d reduced(PixelPoint point) const { return m_map.reduced(point); }
    [[nodiscard]] double pixelsPerCm() const { return m_map.pixelsPerCm; }

private:
    RunnerPictures() = default;
    PictureMap m_map;
    std::vector<Pyramid> m_pyramids;
};

} // namespace latemile
