// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/runner_pictures.hpp"

#include "core/decimal_text.hpp"
#include "core/follow/shades_ahead.hpp"

#include <opencv2/imgproc.hpp>
#include <opencv2/video/tracking.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace latemile {

namespace {

constexpr double mostPixelsPerCm = 3.2;
constexpr double mostBytes = 1.5 * 1024 * 1024 * 1024;
constexpr double bytesAPixel = 1.5; ///< a third more for the pyramid, and its margins

cv::Rect partOf(const FollowedStretch& stretch, const ClipFacts& facts)
{
    const int left = static_cast<int>(std::floor(stretch.topLeft.u));
    const int top = static_cast<int>(std::floor(stretch.topLeft.v));
    const int right = static_cast<int>(std::ceil(stretch.bottomRight.u));
    const int bottom = static_cast<int>(std::ceil(stretch.bottomRight.v));
    return cv::Rect(left, top, right - left, bottom - top) &
           cv::Rect(0, 0, facts.width, facts.height);
}

Outcome<void> canBeHeld(const FollowedStretch& stretch, const cv::Rect& part, double reduction,
                        double rate)
{
    const double aFrame = bytesAPixel * part.area() * reduction * reduction;
    const auto frames = static_cast<double>(stretch.last.value - stretch.first.value + 1);
    constexpr double fewestPixels = 32.0; ///< of a side, or the smallest picture has nothing left
    if (reduction * std::min(part.width, part.height) < fewestPixels) {
        return fail(Error::Kind::Inconsistent,
                    "The marks lie outside the picture or on one spot: place them on the runner.");
    }
    if (aFrame * frames > mostBytes) {
        return fail(Error::Kind::Unsupported,
                    "The stretch is too long to be followed at once: choose at most " +
                        decimalText(mostBytes / aFrame / rate, 0) + " s of the clip.");
    }
    return {};
}

/// How bright a picture is, and how far its pixels lie from that.
struct Light {
    double mean{};
    double spread{};
};

Light lightOf(const cv::Mat& picture)
{
    cv::Scalar mean;
    cv::Scalar spread;
    cv::meanStdDev(picture, mean, spread);
    return {mean[0], spread[0]};
}

/// A cloud or a lamp changes all of a picture alike; following compares brightness, so it is taken
/// back to that of the first picture with light in it: the contrast too, since luma does not begin
/// at zero where the range is limited, so that no factor alone takes it back. Changes of less than
/// 2 % are left, and so are black pictures, as of a clip that fades in: nothing can be made of
/// them.
cv::Mat evenlyLit(const cv::Mat& part, std::optional<Light>& first)
{
    constexpr double black = 24.0; ///< luma of black is 16 where the range is limited
    constexpr double mostGain = 4.0;
    const double mean = cv::mean(part)[0];
    if (mean < black) {
        return part;
    }
    if (!first) {
        first = lightOf(part);
    }
    if (std::abs(mean - first->mean) < 0.02 * first->mean) {
        return part;
    }
    const auto now = lightOf(part);
    const double gain = now.spread > 0.0 ? first->spread / now.spread : 1.0;
    if (gain < 1.0 / mostGain || gain > mostGain) {
        return part; // a flash, or a fade: no light of the same room
    }
    cv::Mat lit;
    part.convertTo(lit, CV_8U, gain, first->mean - gain * now.mean);
    return lit;
}

} // namespace

Outcome<RunnerPictures> RunnerPictures::read(ClipReader& clip, const FollowedStretch& stretch,
                                             const std::function<bool(double)>& goOn)
{
    RunnerPictures pictures;
    pictures.m_map.first = stretch.first;
    pictures.m_map.part = partOf(stretch, clip.facts());
    pictures.m_map.reduction = std::min(1.0, mostPixelsPerCm / stretch.pixelsPerCm);
    pictures.m_map.pixelsPerCm = stretch.pixelsPerCm * pictures.m_map.reduction;
    RETURN_IF_ERROR(canBeHeld(stretch, pictures.m_map.part, pictures.m_map.reduction,
                              clip.facts().captureRate));
    const auto count = stretch.last.value - stretch.first.value + 1;
    const cv::Size window(2 * halfWindow + 1, 2 * halfWindow + 1);
    std::optional<Light> firstLight;
    ShadesAhead ahead(clip, stretch.first, stretch.last, pictures.m_map.part,
                      pictures.m_map.reduction);
    for (std::int64_t i = 0; i < count; ++i) {
        if (goOn && !goOn(static_cast<double>(i) / static_cast<double>(count))) {
            return fail(Error::Kind::Cancelled, "Following was stopped; nothing was changed.");
        }
        ASSIGN_OR_RETURN(const auto shades, ahead.next());
        const cv::Mat part = evenlyLit(shades, firstLight);
        Pyramid pyramid;
        cv::buildOpticalFlowPyramid(part, pyramid, window, levels, false, cv::BORDER_REFLECT_101,
                                    cv::BORDER_CONSTANT, false);
        pictures.m_pyramids.push_back(std::move(pyramid));
    }
    return pictures;
}

cv::Point2d PictureMap::reduced(PixelPoint point) const
{
    return {(point.u - part.x) * reduction - 0.5, (point.v - part.y) * reduction - 0.5};
}

PixelPoint PictureMap::upright(cv::Point2d point) const
{
    return {(point.x + 0.5) / reduction + part.x, (point.y + 0.5) / reduction + part.y};
}

} // namespace latemile
