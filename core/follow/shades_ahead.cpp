// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/shades_ahead.hpp"

#include <utility>

namespace latemile {

namespace {

/// Frames ahead: enough for decoding to go on while a slower frame is worked on.
constexpr std::size_t mostReady = 8;

} // namespace

ShadesAhead::ShadesAhead(ClipReader& clip, FrameNumber first, FrameNumber last, cv::Rect part)
    : m_clip(clip), m_first(first), m_last(last), m_part(part),
      m_thread([this](const std::stop_token& stop) { read(stop); })
{
}

Outcome<cv::Mat> ShadesAhead::partOf(FrameNumber frame)
{
    ASSIGN_OR_RETURN(auto shades, m_clip.shades(frame));
    const cv::Mat whole(shades.height, shades.width, CV_8UC1, shades.values.data());
    return whole(m_part).clone();
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
