// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/picture.hpp"

#include <array>
#include <cstdint>
#include <filesystem>
#include <functional>

namespace latemile::tests {

/// A picture whose pixel (x, y) is blue, green, red as `colour` says.
using Colour = std::array<std::uint8_t, 3>;
Picture painted(int width, int height, const std::function<Colour(int x, int y)>& colour);

/// The colour of a pixel; black outside.
Colour colourAt(const Picture& picture, int x, int y);

/// A clip of the sample athlete, filmed from her left, with exact truth beside it.
std::filesystem::path sampleClip();
/// One of its frames.
Picture sampleFrame(int number);

/// The folder of the program's resources.
std::filesystem::path resources();

} // namespace latemile::tests
