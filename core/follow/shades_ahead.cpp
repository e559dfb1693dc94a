// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/shades_ahead.hpp"

#include <opencv2/imgproc.hpp>

#include <utility>

namespace latemile {

namespace {

/// Frames ahead: enough for decoding to go on while a slower frame is worked on.
constexpr std::size_t mostReady = 8;

cv::Mat reduced(const cv::Mat& part, double reduction)
{
    if (reduction >= 1.0) {
        return part.clone();
    }
    // Averaging over areas takes longer than decoding does, and down to half the size two
    // neighbours each way leave nothing out.
    const auto way = reduction >= 0.5 ? cv::INTER_LINEAR : cv::INTER_AREA;
    cv::Mat smaller;
    cv::resize(part, smaller, {}, reduction, reduction, way);
    return smaller;
}

} // namespace

ShadesAhead::ShadesAhead(ClipReader& clip, FrameNumber first, FrameNumber last, cv::Rect part,
                         double reduction)
    : m_clip(clip), m_first(first), m_last(last), m_part(part), m_reduction(reduction),
      m_thread([this](const std::stop_token& stop) { read(stop); })
{
}

Outcome<cv::Mat> ShadesAhead::partOf(FrameNumber frame)
{
    cv::Mat part;
    RETURN_IF_ERROR(m_clip.lookAtShades(frame, [&](const ShadesView& view) {
        // The pixels are only read.
        const cv::Mat whole(view.height, view.width, CV_8UC1,
                            const_cast<std::uint8_t*>(view.pixels),
                            static_cast<std::size_t>(view.bytesPerRow));
        part = reduced(whole(m_part), m_reduction);
    }));
    return part;
}

void ShadesAhead::read(const std::stop_token& stop)
{
    for (auto frame = m_first; frame <= m_last && !stop.stop_requested(); ++frame.value) {
        auto part = partOf(frame);
        const bool isLast = !part;
        std::unique_lock lock(m_mutex);
        if (!m_changed.wait(lock, stop, [this] { return m_ready.size() < mostReady; })) {
            return;
        }
        m_ready.push_back(std::move(part));
        m_changed.notify_all();
        if (isLast) {
            return;
        }
    }
}

Outcome<cv::Mat> ShadesAhead::next()
{
    std::unique_lock lock(m_mutex);
    m_changed.wait(lock, [this] { return !m_ready.empty(); });
    auto part = std::move(m_ready.front());
    m_ready.pop_front();
    m_changed.notify_all();
    return part;
}

} // namespace latemile
