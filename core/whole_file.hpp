// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace latemile {

/// A whole regular file as bytes. Missing files, directories and files over 256 MiB are errors that
/// name it.
Outcome<std::string> readWholeFile(const std::filesystem::path& file);
/// Replaces `file` at once: a temporary file beside it, checked writes, fsync, rename, fsync of the
/// folder. On any failure the old file stands and nothing is left behind.
Outcome<void> replaceFile(const std::filesystem::path& file, std::string_view bytes);

} // namespace latemile
