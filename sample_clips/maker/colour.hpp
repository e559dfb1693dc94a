// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstdint>

namespace latemile::maker {

/// Blue, green, red, 0 to 255, as OpenCV orders them.
struct Colour {
    double b{};
    double g{};
    double r{};
};
constexpr Colour operator*(Colour c, double k)
{
    return {c.b * k, c.g * k, c.r * k};
}
constexpr Colour operator+(Colour a, Colour b)
{
    return {a.b + b.b, a.g + b.g, a.r + b.r};
}
constexpr Colour blend(Colour a, Colour b, double share)
{
    return a * (1.0 - share) + b * share;
}
/// A channel as it is stored.
inline std::uint8_t level(double value)
{
    return static_cast<std::uint8_t>(std::clamp(value + 0.5, 0.0, 255.0));
}

} // namespace latemile::maker
