// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <numbers>

namespace latemile::maker {

/// A place in the room, in centimetres: x forward in the direction of travel, y up from the belt,
/// z to the runner's right.
struct Vec3 {
    double x{};
    double y{};
    double z{};
    constexpr bool operator==(const Vec3&) const = default;
};
constexpr Vec3 operator+(Vec3 a, Vec3 b)
{
    return {a.x + b.x, a.y + b.y, a.z + b.z};
}
constexpr Vec3 operator-(Vec3 a, Vec3 b)
{
    return {a.x - b.x, a.y - b.y, a.z - b.z};
}
constexpr Vec3 operator*(Vec3 a, double k)
{
    return {a.x * k, a.y * k, a.z * k};
}
constexpr double dot(Vec3 a, Vec3 b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline double length(Vec3 a)
{
    return std::sqrt(dot(a, a));
}

/// A pair of numbers: a place in the picture (pixels), or in a body part's own plane (cm).
struct Vec2 {
    double x{};
    double y{};
    constexpr bool operator==(const Vec2&) const = default;
};
constexpr Vec2 operator+(Vec2 a, Vec2 b)
{
    return {a.x + b.x, a.y + b.y};
}
constexpr Vec2 operator-(Vec2 a, Vec2 b)
{
    return {a.x - b.x, a.y - b.y};
}
constexpr Vec2 operator*(Vec2 a, double k)
{
    return {a.x * k, a.y * k};
}
inline double length(Vec2 a)
{
    return std::hypot(a.x, a.y);
}
/// Turns by an angle in radians, from x towards y.
inline Vec2 turned(Vec2 a, double angle)
{
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    return {a.x * c - a.y * s, a.x * s + a.y * c};
}

constexpr double radians(double degrees)
{
    return degrees * std::numbers::pi / 180.0;
}
constexpr double degrees(double radians)
{
    return radians * 180.0 / std::numbers::pi;
}
constexpr double blend(double a, double b, double share)
{
    return a + (b - a) * share;
}
constexpr Vec3 blend(Vec3 a, Vec3 b, double share)
{
    return a + (b - a) * share;
}

} // namespace latemile::maker
