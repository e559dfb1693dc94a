// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/picture.hpp"
#include "core/outcome.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <span>
#include <vector>

namespace latemile {

/// What stands still before a camera: the median of several frames of a clip, in grey, and where
/// those frames hardly differ (not the runner, not the belt).
struct StillBackground {
    int pictureWidth{}; ///< of the upright picture, pixels
    int pictureHeight{};
    int width{}; ///< of the reduced picture kept here: at most 1280 pixels on its longer side
    int height{};
    std::vector<std::uint8_t> grey;  ///< row by row
    std::vector<std::uint8_t> still; ///< 255 where nothing moved, else 0

    /// Pixels of the upright picture a pixel of the reduced one.
    [[nodiscard]] double reduction() const { return static_cast<double>(pictureWidth) / width; }
};

/// From frames of one size, in any order; at least one.
[[nodiscard]] StillBackground stillBackgroundOf(std::span<const Picture> frames);

/// Of nine frames spread over a clip, key frames where there are any near (spreadPictures). `goOn`
/// is asked between them, with the share done, 0 to 1; false stops (Error::Kind::Cancelled).
Outcome<StillBackground> readStillBackground(const std::filesystem::path& file,
                                             const std::function<bool(double)>& goOn = {});

} // namespace latemile
