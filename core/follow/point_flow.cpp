// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/point_flow.hpp"

#include <opencv2/video/tracking.hpp>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr int grid = 1 << RunnerPictures::levels; ///< parts of it are whole on every level
constexpr double comesBack = 0.8; ///< pixels: farther off after going there and back is lost
constexpr double leastTexture = 1e-4;
constexpr int smallestPart = 64;
/// From frame to frame the speed so far tells the place to some pixels.
constexpr int levelsFromFrameToFrame = 1;
const cv::Size window(2 * RunnerPictures::halfWindow + 1, 2 * RunnerPictures::halfWindow + 1);
const cv::TermCriteria stop(cv::TermCriteria::COUNT | cv::TermCriteria::EPS, 12, 0.02);

int onGrid(float value)
{
    return static_cast<int>(std::floor(value / grid)) * grid;
}

/// Holds all points with room for their windows on the smallest level.
cv::Rect partAround(const std::vector<cv::Point2f>& points, const std::vector<cv::Point2f>& others)
{
    constexpr float room = (RunnerPictures::halfWindow + 3) * grid;
    cv::Rect2f box(points.front(), cv::Size2f(1, 1));
    for (const auto* list : {&points, &others}) {
        for (const auto& point : *list) {
            box |= cv::Rect2f(point, cv::Size2f(1, 1));
        }
    }
    return {cv::Point(onGrid(box.x - room), onGrid(box.y - room)),
            cv::Point(onGrid(box.x + box.width + room + grid),
                      onGrid(box.y + box.height + room + grid))};
}

cv::Mat cut(const RunnerPictures::Pyramid& pyramid, const cv::Rect& part, int level)
{
    return pyramid[static_cast<std::size_t>(level)](
        cv::Rect(part.x >> level, part.y >> level, part.width >> level, part.height >> level));
}

std::vector<cv::Point2f> moved(std::vector<cv::Point2f> points, cv::Point2f by)
{
    for (auto& point : points) {
        point += by;
    }
    return points;
}

cv::Point2f cornerOf(const cv::Rect& part)
{
    return {static_cast<float>(part.x), static_cast<float>(part.y)};
}

} // namespace

PointFlow::PointFlow(const RunnerPictures& pictures, FrameNumber from, Search search)
    : m_pictures(pictures), m_from(from),
      // A small picture has fewer.
      m_levels(std::min(search == Search::Wide ? RunnerPictures::levels : levelsFromFrameToFrame,
                        static_cast<int>(pictures.pyramid(from).size()) - 1))
{
}

cv::Rect PointFlow::wholeGrid() const
{
    const auto& picture = m_pictures.picture(m_from);
    return {0, 0, picture.cols / grid * grid, picture.rows / grid * grid};
}

/// With room for the points to move on over the next frames, so that these find it made already.
void PointFlow::prepare(const cv::Rect& needed)
{
    if ((m_part & needed) == needed) {
        return;
    }
    constexpr int onwards = 4 * grid;
    m_part = cv::Rect(needed.x - onwards, needed.y - onwards, needed.width + 2 * onwards,
                      needed.height + 2 * onwards) &
             wholeGrid();
    m_sloped.clear();
    for (int level = 0; level <= m_levels; ++level) {
        RunnerPictures::Pyramid one;
        cv::buildOpticalFlowPyramid(cut(m_pictures.pyramid(m_from), m_part, level), one, window, 0,
                                    true, cv::BORDER_REFLECT_101, cv::BORDER_CONSTANT, true);
        m_sloped.insert(m_sloped.end(), one.begin(), one.end());
    }
}

FoundPoints PointFlow::found(const std::vector<cv::Point2f>& points,
                             const std::vector<cv::Point2f>& guesses, FrameNumber to)
{
    FoundPoints found{guesses, std::vector<bool>(points.size(), false)};
    const auto needed = partAround(points, guesses) & wholeGrid();
    if (needed.width < smallestPart || needed.height < smallestPart) {
        return found;
    }
    prepare(needed);
    RunnerPictures::Pyramid there;
    for (int level = 0; level <= m_levels; ++level) {
        there.push_back(cut(m_pictures.pyramid(to), m_part, level));
    }
    const auto corner = cornerOf(m_part);
    auto after = moved(guesses, -corner);
    std::vector<unsigned char> isFound;
    std::vector<unsigned char> isFoundBack;
    std::vector<float> unused;
    cv::calcOpticalFlowPyrLK(m_sloped, there, moved(points, -corner), after, isFound, unused,
                             window, m_levels, stop, cv::OPTFLOW_USE_INITIAL_FLOW, leastTexture);
    found.at = moved(std::move(after), corner);
    // The way back starts where it should end, so the largest picture suffices for it.
    constexpr int backLevels = 0;
    const auto backCorner = cornerOf(needed);
    auto returned = moved(points, -backCorner);
    cv::calcOpticalFlowPyrLK(cut(m_pictures.pyramid(to), needed, 0),
                             cut(m_pictures.pyramid(m_from), needed, 0),
                             moved(found.at, -backCorner), returned, isFoundBack, unused, window,
                             backLevels, stop, cv::OPTFLOW_USE_INITIAL_FLOW, leastTexture);
    returned = moved(std::move(returned), backCorner);
    for (std::size_t i = 0; i < points.size(); ++i) {
        found.cameBack[i] =
            isFound[i] && isFoundBack[i] && cv::norm(returned[i] - points[i]) < comesBack;
    }
    return found;
}

} // namespace latemile
