// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <opencv2/core.hpp>

#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

namespace latemile {

/// Decodes a part of frame after frame on a thread of its own and makes it smaller there, at most a
/// few frames ahead of who takes them, so that decoding goes on while they are worked on. While it
/// lives `clip` is its alone; destroyed early it waits for the frame under way and no other.
class ShadesAhead {
public:
    /// `reduction` at most 1: pixels that come of one, along a side.
    ShadesAhead(ClipReader& clip, FrameNumber first, FrameNumber last, cv::Rect part,
                double reduction = 1.0);
    /// The part of the next frame, without colour; waits for it. Not to be asked again after an
    /// error or the last frame.
    Outcome<cv::Mat> next();

private:
    void read(const std::stop_token& stop);
    [[nodiscard]] Outcome<cv::Mat> partOf(FrameNumber frame);

    // The reading thread's own.
    ClipReader& m_clip;
    const FrameNumber m_first;
    const FrameNumber m_last;
    const cv::Rect m_part;
    const double m_reduction;
    std::mutex m_mutex;
    std::condition_variable_any m_changed;
    std::deque<Outcome<cv::Mat>> m_ready; // guarded by m_mutex
    std::jthread m_thread;                // last: starts when the rest is built
};

} // namespace latemile
