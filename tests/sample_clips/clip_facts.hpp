// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace latemile::test {

/// What libav alone, without any code of ours, finds in a clip.
struct RawClip {
    std::string codec;
    int width{};
    int height{};
    std::vector<double> times; ///< of the decoded frames in order shown, file's seconds
    std::vector<std::vector<std::uint8_t>> luma; ///< of each, rows packed
    std::string captureTag; ///< com.android.capture.fps, empty when there is none
};
/// Decodes it all; throws std::runtime_error when libav cannot.
RawClip decodeAll(const std::filesystem::path& file);

} // namespace latemile::test
