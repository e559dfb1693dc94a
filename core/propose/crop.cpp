// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/crop.hpp"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <cstring>

namespace latemile {

namespace {

constexpr double marginRoundPerson = 1.25;
/// From here on shrinking would skip pixels: smooth first.
constexpr double shrinkThatSkips = 1.6;
constexpr double blurOfShrink = 0.4; ///< pixels of sigma for each pixel that becomes one

/// Crop pixels to picture pixels, both from pixel edges.
cv::Matx23d toPicture(const Crop& crop)
{
    const double scale = crop.size / cropPixels;
    const double c = std::cos(crop.angle) * scale;
    const double s = std::sin(crop.angle) * scale;
    constexpr double half = cropPixels / 2.0;
    return {c, -s, crop.centre.u - (c * half - s * half),
            s, c,  crop.centre.v - (s * half + c * half)};
}

/// The part of the picture that the crop may read, whichever way it is turned.
cv::Rect readPart(const Picture& picture, const Crop& crop)
{
    const bool isAnywhere = std::isfinite(crop.centre.u) && std::isfinite(crop.centre.v) &&
                            std::isfinite(crop.size) && std::isfinite(crop.angle);
    if (!isAnywhere) {
        return {};
    }
    const double reach = std::min(crop.size * 0.75 + 8, 1e6);
    const auto edge = [](double place) { return static_cast<int>(std::clamp(place, -1e6, 1e6)); };
    const cv::Rect wanted(edge(crop.centre.u - reach), edge(crop.centre.v - reach), edge(2 * reach),
                          edge(2 * reach));
    return wanted & cv::Rect(0, 0, picture.width(), picture.height());
}

cv::Mat cropped(const Picture& picture, const Crop& crop)
{
    const auto part = readPart(picture, crop);
    if (part.empty()) {
        return cv::Mat::zeros(cropPixels, cropPixels, CV_8UC3);
    }
    // OpenCV asks for pointers to what it does not change.
    const cv::Mat whole(picture.height(), picture.width(), CV_8UC4,
                        const_cast<std::uint8_t*>(picture.row(0)), picture.bytesPerRow());
    cv::Mat colours;
    cv::cvtColor(whole(part), colours, cv::COLOR_BGRA2BGR);
    const double scale = crop.size / cropPixels;
    if (scale > shrinkThatSkips) {
        cv::GaussianBlur(colours, colours, {}, blurOfShrink * scale);
    }
    auto map = toPicture(crop);
    // OpenCV counts pixel centres where we count edges.
    map(0, 2) += (map(0, 0) + map(0, 1)) * 0.5 - 0.5 - part.x;
    map(1, 2) += (map(1, 0) + map(1, 1)) * 0.5 - 0.5 - part.y;
    cv::Mat out;
    cv::warpAffine(colours, out, map, {cropPixels, cropPixels},
                   cv::INTER_LINEAR | cv::WARP_INVERSE_MAP, cv::BORDER_CONSTANT);
    return out;
}

} // namespace

Crop cropRound(const Box& box)
{
    return {{box.u + box.width / 2, box.v + box.height / 2},
            marginRoundPerson * std::max(box.width, box.height),
            0.0};
}

Crop cropRound(PixelPoint centre, PixelPoint reach)
{
    const double across = reach.u - centre.u;
    const double down = reach.v - centre.v;
    return {centre, 2 * marginRoundPerson * std::hypot(across, down), std::atan2(across, -down)};
}

Crop cropRound(const Picture& picture)
{
    return {{picture.width() / 2.0, picture.height() / 2.0},
            static_cast<double>(std::max(picture.width(), picture.height())),
            0.0};
}

PixelPoint fromCrop(const Crop& crop, double x, double y)
{
    const auto map = toPicture(crop);
    return {map(0, 0) * x + map(0, 1) * y + map(0, 2), map(1, 0) * x + map(1, 1) * y + map(1, 2)};
}

std::vector<float> networkInput(const Picture& picture, const Crop& crop)
{
    const auto pixels = cropped(picture, crop);
    constexpr std::size_t plane = std::size_t{cropPixels} * cropPixels;
    std::vector<float> input(3 * plane);
    for (int y = 0; y < cropPixels; ++y) {
        const auto* row = pixels.ptr<std::uint8_t>(y);
        for (int x = 0; x < cropPixels; ++x) {
            const auto at = static_cast<std::size_t>(y * cropPixels + x);
            input[at] = static_cast<float>(row[3 * x + 2]) / 255.0F;
            input[plane + at] = static_cast<float>(row[3 * x + 1]) / 255.0F;
            input[2 * plane + at] = static_cast<float>(row[3 * x]) / 255.0F;
        }
    }
    return input;
}

std::vector<std::uint8_t> croppedPixels(const Picture& picture, const Crop& crop)
{
    const auto pixels = cropped(picture, crop);
    return {pixels.datastart, pixels.dataend};
}

Crop CropPath::at(Seconds time) const
{
    const auto after = std::find_if(m_known.begin(), m_known.end(),
                                    [time](const Known& known) { return known.time > time; });
    if (after == m_known.begin()) {
        return m_known.front().crop;
    }
    const auto& from = *(after - 1);
    if (after == m_known.end()) {
        return from.crop;
    }
    const double share = (time - from.time) / (after->time - from.time);
    const auto between = [share](double a, double b) { return a + share * (b - a); };
    const auto& a = from.crop;
    const auto& b = after->crop;
    const double turn = std::remainder(b.angle - a.angle, 2 * std::acos(-1.0)); // the short way
    return {{between(a.centre.u, b.centre.u), between(a.centre.v, b.centre.v)},
            between(a.size, b.size),
            a.angle + share * turn};
}

} // namespace latemile
