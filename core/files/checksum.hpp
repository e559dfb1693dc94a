// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace latemile {

/// CRC-32 as of ISO-HDLC, gzip and PNG: of "123456789" it is 0xCBF43926.
[[nodiscard]] std::uint32_t crc32Of(std::string_view bytes);
/// SHA-256 (FIPS 180-4) in 64 lower-case hexadecimal figures.
[[nodiscard]] std::string sha256Of(std::string_view bytes);
/// The same of a file of any size; a file that cannot be read is an Error that names it. `goOn` is
/// asked at every MiB; false stops (Error::Kind::Cancelled).
Outcome<std::string> sha256OfFile(const std::filesystem::path& file, FileSystem& files = disk(),
                                  const std::function<bool()>& goOn = {});

} // namespace latemile
