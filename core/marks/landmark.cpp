// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/landmark.hpp"

#include <algorithm>
#include <utility>

namespace latemile {

namespace {

constexpr std::array<std::string_view, landmarkCount> landmarkNames{
    "ear",   "shoulder", "elbow", "wrist", "hip",  "knee",
    "ankle", "heel",     "toe",   "asis",  "psis", "heel-top"};
constexpr std::array<std::string_view, 4> sideNames{"near", "far", "left", "right"};
constexpr std::array<std::string_view, 3> originNames{"placed", "followed", "proposed"};
constexpr std::array<std::string_view, 2> footNames{"left", "right"};

template <class Enum, std::size_t N>
std::optional<Enum> named(const std::array<std::string_view, N>& names, std::string_view word)
{
    const auto found = std::find(names.begin(), names.end(), word);
    if (found == names.end()) {
        return std::nullopt;
    }
    return static_cast<Enum>(found - names.begin());
}

} // namespace

std::string_view nameOf(Landmark landmark)
{
    return landmarkNames[static_cast<std::size_t>(landmark)];
}
std::string_view nameOf(BodySide side)
{
    return sideNames[static_cast<std::size_t>(side)];
}
std::string_view nameOf(Origin origin)
{
    return originNames[static_cast<std::size_t>(origin)];
}
std::string_view nameOf(Foot foot)
{
    return footNames[static_cast<std::size_t>(foot)];
}

std::optional<Landmark> landmarkNamed(std::string_view word)
{
    return named<Landmark>(landmarkNames, word);
}
std::optional<BodySide> bodySideNamed(std::string_view word)
{
    return named<BodySide>(sideNames, word);
}
std::optional<Origin> originNamed(std::string_view word)
{
    return named<Origin>(originNames, word);
}
std::optional<Foot> footNamed(std::string_view word)
{
    return named<Foot>(footNames, word);
}

double defaultClickError(Landmark landmark)
{
    constexpr std::array<double, landmarkCount> errors{0.4, 0.8, 0.6, 0.6, 1.2, 0.7,
                                                       0.5, 0.4, 0.5, 1.2, 1.2, 0.4};
    return errors[static_cast<std::size_t>(landmark)];
}

} // namespace latemile
