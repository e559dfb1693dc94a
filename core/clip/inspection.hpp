// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>

namespace latemile {

/// The facts of a clip for a program: {"version":1,"file":name,"container":..,"codec":..,
/// "pixel_format":..,"width":..,"height":..,"stored_width":..,"stored_height":..,
/// "rotation_deg":..,"mirrored":..,"pixel_aspect":..,"colour":..,"high_dynamic_range":..,
/// "interlaced":..,"frames":..,"container_fps":..,"capture_fps":..,"capture_fps_from":..,
/// "slow_motion":..,"variable_rate":..,"longest_gap_s":..,"duration_s":..,"remarks":[..]}.
/// Lengths in pixels of the upright picture, times in real seconds. Always valid UTF-8.
[[nodiscard]] nlohmann::json inspectionJson(const std::filesystem::path& file,
                                            const ClipFacts& facts);

/// The same for a reader: one fact a line, the remarks last, each on a line of its own.
[[nodiscard]] std::string inspectionText(const std::filesystem::path& file, const ClipFacts& facts);

} // namespace latemile
