// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"
#include "core/propose/crop.hpp"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace latemile {

/// What the network answers, as it stands.
struct NetworkAnswer {
    static constexpr int points = 39; ///< 33 of the body, 6 for the next crop
    static constexpr int values = 5;  ///< a point: x, y, depth, visibility, presence
    static constexpr int cells = 64;  ///< a side of a heat map
    std::vector<float> landmarks;     ///< points x values; x and y in crop pixels
    float presence{};                 ///< 0 to 1: that there is a person at all
    std::vector<float> heat;          ///< points x cells x cells, before the sigmoid
};

/// A point of the body as the network sees it on one frame.
struct BodyPoint {
    PixelPoint at;
    double peak{}; ///< highest value of its heat map round it, 0 to 1: how sharply it is seen
    bool operator==(const BodyPoint&) const = default;
};

/// The person on one frame: the points by the network's numbers.
struct BodyPoints {
    std::array<BodyPoint, NetworkAnswer::points> points{};
    double presence{};
    Crop nextCrop; ///< round this person
    bool operator==(const BodyPoints&) const = default;

    [[nodiscard]] const BodyPoint& left(Landmark landmark) const;
    [[nodiscard]] const BodyPoint& right(Landmark landmark) const;
    [[nodiscard]] PixelPoint midHip() const;
    [[nodiscard]] PixelPoint midShoulder() const;
};

/// Median over the frames of the distance from mid hip to mid shoulder, pixels, at least 1.
[[nodiscard]] double trunkLength(std::span<const BodyPoints> bodies);

/// The number of the left one of a pair in the network's order, the right one follows it; nothing
/// for a landmark the network does not know (ASIS, PSIS, heel-top).
[[nodiscard]] std::optional<std::size_t> networkPoint(Landmark landmark);

/// `x`, `y` in crop pixels, made finer by the heat map: the mean of the 7 x 7 cells round it,
/// weighted by their heat, where any of them is sure (0.5). Cell i lies at 4 i crop pixels.
struct RefinedPoint {
    double x{};
    double y{};
    double peak{};
};
[[nodiscard]] RefinedPoint refined(double x, double y, std::span<const float> heat);

/// The answer for a crop in pixels of the picture.
[[nodiscard]] BodyPoints bodyPointsFrom(const NetworkAnswer& answer, const Crop& crop);

} // namespace latemile
