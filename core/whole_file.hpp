// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace latemile {

/// A whole regular file as bytes. Missing files, directories and files over 256 MiB are errors that
/// name it.
Outcome<std::string> readWholeFile(const std::filesystem::path& file, FileSystem& files = disk());
/// Replaces `file` at once: a temporary file beside it, checked writes, fsync, rename, fsync of the
/// folder. On any failure the old file stands and nothing is left behind.
Outcome<void> replaceFile(const std::filesystem::path& file, std::string_view bytes,
                          FileSystem& files = disk());

/// The same for a document of the library: a new one is its owner's alone (0600), and what stood
/// there before is kept beside it as its previous generation. On any failure the old or the new
/// document stands whole, and nothing but that one generation is left behind.
Outcome<void> replaceDocument(const std::filesystem::path& file, std::string_view bytes,
                              FileSystem& files = disk());
/// The same for what stands beside a document: its owner's alone, no previous generation.
Outcome<void> replaceRecord(const std::filesystem::path& file, std::string_view bytes,
                            FileSystem& files = disk());
/// "session.json": "session.previous.json" beside it.
[[nodiscard]] std::filesystem::path previousGenerationOf(const std::filesystem::path& document);
/// The first name of its kind not taken: "session.json", "damaged": "session.damaged-1.json".
[[nodiscard]] std::filesystem::path freeNameBeside(const std::filesystem::path& document,
                                                   std::string_view why,
                                                   FileSystem& files = disk());

/// A folder and what it lies in, each its owner's alone (0700) where it is new.
Outcome<void> makeFolders(const std::filesystem::path& folder, FileSystem& files = disk());

/// What the system's error number means to whoever wanted to read or write a file.
[[nodiscard]] tl::unexpected<Error> readFault(const std::filesystem::path& file, int code);
[[nodiscard]] tl::unexpected<Error> writeFault(const std::filesystem::path& file, int code);

} // namespace latemile
