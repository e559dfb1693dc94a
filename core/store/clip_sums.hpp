// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace latemile {

/// The SHA-256 of each clip as it came in, by its name: SHA256SUMS in the folder of the clips, as
/// sha256sum of the GNU core utilities writes and checks it (`sha256sum -c SHA256SUMS`).
using ClipSums = std::map<std::string, std::string>;

/// None where there is no such file; a line that is none of its kind is an Error.
Outcome<ClipSums> readClipSums(const std::filesystem::path& clipsFolder,
                               FileSystem& files = disk());
/// Reads the clip and writes its sum down, over an older one of that name.
Outcome<void> recordClipSum(const std::filesystem::path& clip, FileSystem& files = disk());

} // namespace latemile
