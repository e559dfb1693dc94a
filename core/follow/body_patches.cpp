// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/body_patches.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double spacingCm = 5.0; ///< between points along a limb
constexpr double discCm = 2.5;    ///< half the size of what is looked at around a lone landmark
/// Of limbs and trunk, and of feet.
constexpr double leastCorrelation[] = {0.5, 0.2};
constexpr double mostBrighter[] = {20.0, 40.0};

BodyPatch boneOf(const RigidPart& part, cv::Point2d a, cv::Point2d b, double pixelsPerCm)
{
    BodyPatch patch{{part.landmarks[0], part.landmarks[1]}, {}, {}};
    const auto along = b - a;
    const double length = cv::norm(along);
    const cv::Point2d across(-along.y / length, along.x / length);
    const int steps = static_cast<int>(part.lengthCm / spacingCm);
    for (int i = 0; i <= steps; ++i) {
        for (const double side : {-1.0, 0.0, 1.0}) {
            patch.points.push_back(a + along * (static_cast<double>(i) / steps) +
                                   across * (side * part.halfWidthCm * pixelsPerCm));
        }
    }
    return patch;
}

BodyPatch footOf(const RigidPart& part, cv::Point2d ankle, cv::Point2d heel, cv::Point2d toe)
{
    BodyPatch patch{{part.landmarks[0], part.landmarks[1], part.landmarks[2]}, {}, {}};
    constexpr int rows = 4;
    for (int i = 0; i <= rows; ++i) {
        for (int j = 0; i + j <= rows; ++j) {
            const double a = static_cast<double>(i) / rows;
            const double h = static_cast<double>(j) / rows;
            patch.points.push_back(a * ankle + h * heel + (1.0 - a - h) * toe);
        }
    }
    constexpr int edge = 8;
    for (int i = 1; i < edge; ++i) {
        const double share = static_cast<double>(i) / edge;
        patch.points.push_back(heel + share * (toe - heel));
    }
    return patch;
}

/// The front of the shoe, from sole to upper.
BodyPatch toesOf(cv::Point2d ankle, cv::Point2d heel, cv::Point2d toe)
{
    BodyPatch patch{{Landmark::Toe}, {}, {}};
    for (const double up : {0.0, 0.1, 0.2}) {
        for (int i = 0; i < 4; ++i) {
            const double back = 0.1 * i;
            patch.points.push_back((1.0 - back - up * 0.5) * toe + (back + up * 0.5) * heel +
                                   up * (ankle - heel));
        }
    }
    return patch;
}

BodyPatch discOf(Landmark landmark, cv::Point2d at, double pixelsPerCm)
{
    BodyPatch patch{{landmark}, {at}, {}};
    for (int i = 0; i < 8; ++i) {
        const double angle = i * CV_PI / 4.0;
        const double radius = (i % 2 == 0 ? 1.0 : 0.6) * discCm * pixelsPerCm;
        patch.points.emplace_back(at.x + radius * std::cos(angle), at.y + radius * std::sin(angle));
    }
    return patch;
}

/// Between the four pixels around; at the edge the nearest.
float brightnessAt(const cv::Mat& picture, cv::Point2d point)
{
    const double x = std::clamp(point.x, 0.0, picture.cols - 1.001);
    const double y = std::clamp(point.y, 0.0, picture.rows - 1.001);
    const int left = static_cast<int>(x);
    const int top = static_cast<int>(y);
    const double right = x - left;
    const double down = y - top;
    const auto* upper = picture.ptr<unsigned char>(top) + left;
    const auto* lower = picture.ptr<unsigned char>(top + 1) + left;
    return static_cast<float>((1.0 - down) * ((1.0 - right) * upper[0] + right * upper[1]) +
                              down * ((1.0 - right) * lower[0] + right * lower[1]));
}

} // namespace

std::optional<BodyPatch> patchOf(std::size_t index, const ReducedFigure& figure, double pixelsPerCm)
{
    const auto& part = rigidParts[index];
    const auto& a = figure[placeOf(part.landmarks[0])];
    const auto& b = figure[placeOf(part.landmarks[1])];
    const auto& c = figure[placeOf(part.landmarks[2])];
    if (!a || !b || !c || cv::norm(*a - *b) < 1.0) {
        return std::nullopt;
    }
    auto patch = part.isFoot() ? footOf(part, *a, *b, *c) : boneOf(part, *a, *b, pixelsPerCm);
    patch.part = index;
    return patch;
}

std::vector<BodyPatch> patchesOf(const ReducedFigure& figure, double pixelsPerCm)
{
    std::vector<BodyPatch> patches;
    std::array<bool, landmarkCount> held{};
    for (std::size_t part = 0; part < rigidParts.size(); ++part) {
        if (auto patch = patchOf(part, figure, pixelsPerCm)) {
            for (const auto landmark : patch->landmarks) {
                held[placeOf(landmark)] = true;
            }
            patches.push_back(std::move(*patch));
            if (rigidParts[part].isFoot()) {
                patches.push_back(toesOf(*figure[placeOf(Landmark::Ankle)],
                                         *figure[placeOf(Landmark::Heel)],
                                         *figure[placeOf(Landmark::Toe)]));
            }
        }
    }
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        if (figure[i] && !held[i]) {
            patches.push_back(discOf(static_cast<Landmark>(i), *figure[i], pixelsPerCm));
        }
    }
    return patches;
}

PartLook lookOf(const BodyPatch& patch, const cv::Mat& halfSizePicture)
{
    PartLook look;
    look.reserve(patch.points.size());
    for (const auto& point : patch.points) {
        look.push_back(brightnessAt(halfSizePicture, point * 0.5));
    }
    return look;
}

bool looksAlike(const RigidPart& part, const PartLook& a, const PartLook& b)
{
    const auto n = static_cast<double>(a.size());
    double sumA = 0.0, sumB = 0.0, aa = 0.0, bb = 0.0, ab = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sumA += a[i];
        sumB += b[i];
        aa += double{a[i]} * a[i];
        bb += double{b[i]} * b[i];
        ab += double{a[i]} * b[i];
    }
    const double varianceA = aa / n - sumA * sumA / n / n;
    const double varianceB = bb / n - sumB * sumB / n / n;
    const double common = ab / n - sumA * sumB / n / n;
    if (std::abs(sumA - sumB) / n > mostBrighter[part.isFoot()]) {
        return false;
    }
    // Of a part without any pattern a correlation would be one of noise.
    constexpr double noPattern = 16.0;
    return (varianceA < noPattern && varianceB < noPattern) ||
           common >= leastCorrelation[part.isFoot()] * std::sqrt(varianceA * varianceB);
}

} // namespace latemile
