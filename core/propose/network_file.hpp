// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>
#include <string>

namespace latemile {

/// The one network whose errors were measured: the file's name and the SHA-256 of its bytes
/// (resources/pose/PROVENANCE.md).
inline constexpr auto poseNetworkName = "pose_landmark_heavy.tflite";
inline constexpr auto poseNetworkSha256 =
    "59e42d71bcd44cbdbabc419f0ff76686595fd265419566bd4009ef703ea8e1fe";

/// The bytes of the network in the folder "pose" of the program's resources. A missing file and
/// one with other bytes (damaged, or another version) are errors that say what still works.
Outcome<std::string> readPoseNetwork(const std::filesystem::path& resources);

} // namespace latemile
