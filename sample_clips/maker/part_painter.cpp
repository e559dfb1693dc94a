// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/part_painter.hpp"

#include "sample_clips/maker/random.hpp"

#include <array>
#include <cmath>

namespace latemile::maker {

namespace {
// Towards the lamps: up, a little to the left in the picture, and mostly towards the viewer.
constexpr Vec2 lampInPicture{-0.30, -0.52};
constexpr double lampToViewer = 0.80;
} // namespace

Outfit outfitOf(std::uint64_t seed)
{
    constexpr std::array<Colour, 4> skins{
        Colour{120, 158, 206}, {92, 128, 176}, {60, 86, 126}, {138, 172, 214}};
    constexpr std::array<Colour, 4> hairs{
        Colour{34, 40, 52}, {40, 66, 108}, {24, 24, 28}, {70, 112, 158}};
    constexpr std::array<Colour, 4> shirts{
        Colour{96, 74, 176}, {150, 120, 60}, {112, 148, 72}, {168, 96, 120}};
    constexpr std::array<Colour, 3> shoes{Colour{70, 170, 236}, {200, 160, 60}, {110, 96, 224}};
    const auto pick = [seed](const auto& list, std::uint64_t which) {
        const double place = uniform(seed, 300, which) * static_cast<double>(list.size());
        return list[static_cast<std::size_t>(place)];
    };
    return {.skin = pick(skins, 0),
            .hair = pick(hairs, 1),
            .shirt = pick(shirts, 2),
            .shirtTrim = {226, 226, 222},
            .shorts = {74, 56, 46},
            .shortsTrim = {200, 196, 190},
            .sock = {228, 228, 224},
            .shoe = pick(shoes, 3),
            .shoeTrim = {60, 44, 40},
            .sole = {238, 240, 240}};
}

void PartPainter::paint(cv::Mat& picture, Vec2 corner, const Profile& profile,
                        const Placement& place, Cloth cloth, double brightness, Vec2 slip) const
{
    const Vec2 from = place.origin - corner;
    const double area = place.along.x * place.across.y - place.along.y * place.across.x;
    if (std::abs(area) < 1e-9) {
        return;
    }
    // A box around the part's four corners, with a pixel to spare for the smooth edge.
    Vec2 low{1e9, 1e9};
    Vec2 high{-1e9, -1e9};
    for (const double s : {profile.begin(), profile.end()}) {
        for (const double w : {-profile.widest(), profile.widest()}) {
            const Vec2 p = from + place.along * s + place.across * w;
            low = {std::min(low.x, p.x), std::min(low.y, p.y)};
            high = {std::max(high.x, p.x), std::max(high.y, p.y)};
        }
    }
    const int x0 = std::max(0, static_cast<int>(std::floor(low.x)) - 1);
    const int x1 = std::min(picture.cols - 1, static_cast<int>(std::ceil(high.x)) + 1);
    const int y0 = std::max(0, static_cast<int>(std::floor(low.y)) - 1);
    const int y1 = std::min(picture.rows - 1, static_cast<int>(std::ceil(high.y)) + 1);

    const double pixelsPerCm = length(place.across);
    const double pixelsAlong = length(place.along);
    const double first = profile.begin() - 0.5 / pixelsAlong;
    const double last = profile.end() + 0.5 / pixelsAlong;
    const Vec2 front = place.across * (1.0 / pixelsPerCm);
    const double sideLight = front.x * lampInPicture.x + front.y * lampInPicture.y;
    const Vec2 sPerPixel{place.across.y / area, -place.across.x / area};
    const Vec2 wPerPixel{-place.along.y / area, place.along.x / area};
    for (int y = y0; y <= y1; ++y) {
        auto* row = picture.ptr<std::uint8_t>(y);
        const Vec2 left = Vec2{x0 + 0.5, y + 0.5} - from;
        double s = left.x * sPerPixel.x + left.y * sPerPixel.y;
        double w = left.x * wPerPixel.x + left.y * wPerPixel.y;
        for (int x = x0; x <= x1; ++x, s += sPerPixel.x, w += wPerPixel.x) {
            if (s < first || s > last) {
                continue;
            }
            const auto [ahead, behind] = profile.at(std::clamp(s, profile.begin(), profile.end()));
            const double inside =
                std::min(std::min(ahead - w, w + behind) * pixelsPerCm,
                         std::min(s - profile.begin(), profile.end() - s) * pixelsAlong) +
                0.5;
            if (inside <= 0.0) {
                continue;
            }
            const double half = std::max(0.5 * (ahead + behind), 0.05);
            const double n = std::clamp((w - 0.5 * (ahead - behind)) / half, -1.0, 1.0);
            const double lit = n * sideLight + std::sqrt(1.0 - n * n) * lampToViewer;
            const double light =
                brightness * (0.46 + 0.70 * std::max(lit, 0.0)) *
                (1.0 + 0.09 * m_relief.rough(0.5 * (s + slip.x), 0.5 * (w + slip.y)));
            const Colour colour = cloth(m_outfit, s + slip.x, w + slip.y) * light;
            const double cover =
                std::min(inside, 1.0) *
                (profile.fadeEnd() > 0.0
                     ? std::clamp((profile.end() - s) / profile.fadeEnd(), 0.0, 1.0)
                     : 1.0);
            auto* pixel = row + 3 * x;
            pixel[0] = level(pixel[0] + cover * (colour.b - pixel[0]));
            pixel[1] = level(pixel[1] + cover * (colour.g - pixel[1]));
            pixel[2] = level(pixel[2] + cover * (colour.r - pixel[2]));
        }
    }
}

} // namespace latemile::maker
