// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/still_background.hpp"

#include "core/clip/spread_pictures.hpp"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr int longestSide = 1280;
constexpr int framesLookedAt = 9;
/// Grey levels between the frames' quartiles from which a pixel counts as moving; sensor noise and
/// coding leave 2 to 4.
constexpr int movingFrom = 12;
constexpr int edgeOfMotion = 9; ///< px around what moves that are left out too: blur, shadow

cv::Mat reducedGrey(const Picture& picture)
{
    // OpenCV asks for pointers to what it does not change.
    const cv::Mat colours(picture.height(), picture.width(), CV_8UC4,
                          const_cast<std::uint8_t*>(picture.row(0)), picture.bytesPerRow());
    cv::Mat grey;
    cv::cvtColor(colours, grey, cv::COLOR_BGRA2GRAY);
    const int longer = std::max(grey.cols, grey.rows);
    if (longer > longestSide) {
        const double share = static_cast<double>(longestSide) / longer;
        cv::Mat smaller;
        cv::resize(grey, smaller, {}, share, share, cv::INTER_AREA);
        return smaller;
    }
    return grey;
}

/// Sorts each place of the pictures on its own, darkest first: whole pictures are compared and
/// exchanged, neighbour with neighbour, until none is out of order.
void sortPixels(std::vector<cv::Mat>& pictures)
{
    for (std::size_t last = pictures.size(); last > 1; --last) {
        for (std::size_t i = 0; i + 1 < last; ++i) {
            cv::Mat darker;
            cv::Mat lighter;
            cv::min(pictures[i], pictures[i + 1], darker);
            cv::max(pictures[i], pictures[i + 1], lighter);
            pictures[i] = darker;
            pictures[i + 1] = lighter;
        }
    }
}

} // namespace

StillBackground stillBackgroundOf(std::span<const Picture> frames)
{
    std::vector<cv::Mat> greys;
    greys.reserve(frames.size());
    for (const auto& frame : frames) {
        greys.push_back(reducedGrey(frame));
    }
    sortPixels(greys);
    const auto quarter = greys.size() / 4;
    const cv::Mat median = greys[greys.size() / 2];
    const cv::Mat spread = greys[greys.size() - 1 - quarter] - greys[quarter];
    cv::Mat moving = spread >= movingFrom;
    cv::dilate(moving, moving,
               cv::getStructuringElement(cv::MORPH_ELLIPSE, {edgeOfMotion, edgeOfMotion}));
    StillBackground background{
        .pictureWidth = frames.front().width(),
        .pictureHeight = frames.front().height(),
        .width = median.cols,
        .height = median.rows,
        .grey = std::vector<std::uint8_t>(median.begin<std::uint8_t>(), median.end<std::uint8_t>()),
        .still = {}};
    background.still.reserve(background.grey.size());
    std::transform(moving.begin<std::uint8_t>(), moving.end<std::uint8_t>(),
                   std::back_inserter(background.still),
                   [](std::uint8_t moves) { return static_cast<std::uint8_t>(255 - moves); });
    return background;
}

Outcome<StillBackground> readStillBackground(const std::filesystem::path& file,
                                             const std::function<bool(double)>& goOn)
{
    ASSIGN_OR_RETURN(const auto pictures, spreadPictures(file, framesLookedAt, goOn));
    return stillBackgroundOf(pictures);
}

} // namespace latemile
