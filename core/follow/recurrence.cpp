// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/recurrence.hpp"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double pixelsPerCm = 0.4;
constexpr double shortestStride = 0.5; ///< s
constexpr double longestStride = 1.0;
constexpr double strideTolerance = 0.125; ///< share of a stride by which the next may differ
constexpr double leastLikeness = 0.5;
constexpr double coarseStep = 0.0125; ///< s; likeness rises and falls over three times as much
constexpr int margin = 6; ///< small pixels (15 cm) by which a runner may be higher or lower

cv::Mat meanOf(const std::vector<cv::Mat>& pictures)
{
    cv::Mat sum = cv::Mat::zeros(pictures.front().size(), CV_32F);
    for (const auto& picture : pictures) {
        sum += picture;
    }
    return sum / static_cast<double>(pictures.size());
}

} // namespace

StrideRecurrences::StrideRecurrences(const RunnerPictures& pictures, std::vector<double> times)
    : m_first(pictures.first().value), m_share(std::min(1.0, pixelsPerCm / pictures.pixelsPerCm())),
      m_times(std::move(times))
{
    const auto& whole = pictures.picture(pictures.first());
    const cv::Size size(std::max(1, static_cast<int>(std::lround(whole.cols * m_share))),
                        std::max(1, static_cast<int>(std::lround(whole.rows * m_share))));
    for (auto i = pictures.first(); pictures.contains(i); ++i.value) {
        cv::Mat small;
        // The smallest picture of the pyramid is smoothed already: shrinking it further loses no
        // more than shrinking the largest, and takes a fiftieth of the time.
        const auto& smallest = pictures.pyramid(i).back();
        cv::resize(smallest, small, size, 0.0, 0.0, cv::INTER_AREA);
        small.convertTo(small, CV_32F);
        m_moving.push_back(small);
    }
    const auto still = meanOf(m_moving);
    for (auto& picture : m_moving) {
        picture -= still;
    }
}

double StrideRecurrences::timeOf(std::int64_t frame) const
{
    return m_times[static_cast<std::size_t>(frame)];
}

StrideRecurrences::Likeness StrideRecurrences::likeness(const cv::Mat& runner, cv::Rect where,
                                                        std::int64_t other) const
{
    const auto& picture = m_moving[static_cast<std::size_t>(other)];
    const auto searched = cv::Rect(0, where.y - margin, picture.cols, where.height + 2 * margin) &
                          cv::Rect({0, 0}, picture.size());
    if (searched.width < where.width || searched.height < where.height) {
        return {};
    }
    cv::Mat scores;
    cv::matchTemplate(picture(searched), runner, scores, cv::TM_CCORR_NORMED);
    double best = 0.0;
    cv::Point at;
    cv::minMaxLoc(scores, nullptr, &best, nullptr, &at);
    return {best, cv::Point2d(searched.x + at.x - where.x, searched.y + at.y - where.y) / m_share};
}

std::vector<Recurrence> StrideRecurrences::of(FrameNumber frame, const cv::Rect2d& around) const
{
    const auto from = frame.value - m_first;
    const auto frames = static_cast<std::int64_t>(m_moving.size());
    const auto& picture = m_moving[static_cast<std::size_t>(from)];
    const auto where = cv::Rect(cv::Rect2d(around.x * m_share, around.y * m_share,
                                           around.width * m_share, around.height * m_share)) &
                       cv::Rect({0, 0}, picture.size());
    if (where.width < 8 || where.height < 8) {
        return {};
    }
    const cv::Mat runner = picture(where);
    const auto look = [&](std::int64_t i, Recurrence& best) {
        const auto found = likeness(runner, where, i);
        if (found.value > best.likeness) {
            best = {{i + m_first}, found.shift, found.value};
        }
    };
    const double interval =
        frames > 1 ? (timeOf(frames - 1) - timeOf(0)) / static_cast<double>(frames - 1) : 1.0;
    const auto step = std::max<std::int64_t>(1, std::lround(coarseStep / interval));
    // First every few frames, then all around the best.
    const auto bestWithin = [&](double earliest, double latest) {
        const auto first =
            std::distance(m_times.begin(), std::ranges::lower_bound(m_times, earliest));
        const auto end = std::distance(m_times.begin(), std::ranges::upper_bound(m_times, latest));
        Recurrence best{{-1}, {}, -1.0};
        for (auto i = first; i < end; i += step) {
            look(i, best);
        }
        const auto coarse = best.frame.value - m_first;
        for (auto i = std::max(first, coarse - step + 1);
             best.likeness > -1.0 && i < std::min(end, coarse + step); ++i) {
            if (i != coarse) {
                look(i, best);
            }
        }
        return best;
    };
    const double now = timeOf(from);
    const auto before = bestWithin(now - longestStride, now - shortestStride);
    const auto after = bestWithin(now + shortestStride, now + longestStride);
    const auto& nearer = before.likeness > after.likeness ? before : after;
    if (nearer.likeness < leastLikeness) {
        return {};
    }
    const double stride = std::abs(timeOf(nearer.frame.value - m_first) - now);
    std::vector<Recurrence> found;
    for (const double way : {-1.0, 1.0}) {
        double at = now;
        while (true) {
            const double nearest = at + way * stride * (1.0 - strideTolerance);
            const double farthest = at + way * stride * (1.0 + strideTolerance);
            const auto next = bestWithin(std::min(nearest, farthest), std::max(nearest, farthest));
            const bool isCutOff = std::min(nearest, farthest) < timeOf(0) ||
                                  std::max(nearest, farthest) > timeOf(frames - 1);
            if (next.likeness < leastLikeness || isCutOff) {
                break;
            }
            found.push_back(next);
            at = timeOf(next.frame.value - m_first);
        }
    }
    std::sort(found.begin(), found.end(),
              [](const auto& a, const auto& b) { return a.frame < b.frame; });
    return found;
}

} // namespace latemile
