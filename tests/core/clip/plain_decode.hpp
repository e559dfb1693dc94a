// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace latemile::test {

/// One frame as a plain decoding loop from the start of the file gives it.
struct PlainFrame {
    std::uint64_t hash{}; ///< of its upright picture
    double seconds{};     ///< presentation time as libav reports it; -1 where there is none
};

/// The loop of libav's own decoding example: every packet in, every frame out, nothing skipped or
/// sought; one thread, no code of ours but the conversion to an upright picture. The yardstick for
/// every way of reading frames.
[[nodiscard]] std::vector<PlainFrame> plainDecode(const std::filesystem::path& file,
                                                  int stream = -1);

[[nodiscard]] std::uint64_t hashOf(const Picture& picture);

} // namespace latemile::test
