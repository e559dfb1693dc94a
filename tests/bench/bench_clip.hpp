// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

namespace latemile {

inline constexpr std::int64_t frames = 480; ///< of the clip below
inline constexpr std::int64_t group = 60;   ///< from key frame to key frame

/// 1920 x 1080, 240 frames/s, H.264 with B-frames, a key frame every 60, two seconds: made once by
/// the ffmpeg program into the build folder. Ends the program where that cannot be done.
[[nodiscard]] std::filesystem::path benchClip();
/// The same at 3840 x 2160.
[[nodiscard]] std::filesystem::path largeBenchClip();

[[nodiscard]] double quantile(std::vector<double> values, double part);
[[noreturn]] void stop(const char* sentence);

} // namespace latemile
