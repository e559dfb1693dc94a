// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace latemile {

/// How bright each pixel of an upright picture is, one byte a pixel, row by row: what is compared
/// from frame to frame when something is followed. Range and curve are those the clip was coded
/// with, not those of the screen; all frames of a clip are alike in that.
struct Shades {
    int width{};
    int height{};
    std::vector<std::uint8_t> values;
};

/// The same while someone else holds the pixels, mostly the decoder: row `y` begins at
/// `pixels + y * bytesPerRow`.
struct ShadesView {
    int width{};
    int height{};
    const std::uint8_t* pixels{};
    std::ptrdiff_t bytesPerRow{};
};

} // namespace latemile
