// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace latemile::test {

/// The folder for clips made by the tests, in the build folder; each is made once.
[[nodiscard]] std::filesystem::path fixtureFolder();

/// A clip made by the ffmpeg program. `arguments` stand between the program's name and the output
/// file; "@name" in them stands for the fixture of that file name, which must have been made
/// before. The name's ending is the container. Fails the test when the program cannot make it.
[[nodiscard]] std::filesystem::path made(const std::string& name, const std::string& arguments);

/// Arguments for a moving test picture in which every frame differs.
[[nodiscard]] std::string movingPicture(int frames, int width = 160, int height = 120,
                                        int rate = 30);

/// Every clip in whose frames all codecs and containers of the main job are represented.
[[nodiscard]] std::vector<std::filesystem::path> everyCodecAndContainer();

[[nodiscard]] std::string bytesOf(const std::filesystem::path& file);
/// Writes a changed copy beside the other fixtures.
[[nodiscard]] std::filesystem::path written(const std::string& name, const std::string& bytes);

/// What the ffmpeg program itself prints to standard output.
[[nodiscard]] std::string outputOf(const std::string& arguments);

} // namespace latemile::test
