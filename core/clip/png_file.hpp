// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/picture.hpp"
#include "core/outcome.hpp"

#include <filesystem>

namespace latemile {

/// Writes a picture as an 8-bit RGB PNG without any text in it. The file appears whole or not at
/// all: it is written under another name beside its place, checked, and then renamed; an older
/// file of that name stays until then. Errors: no such folder, no right to write, disk full.
[[nodiscard]] Outcome<void> writePng(const Picture& picture, const std::filesystem::path& file);

} // namespace latemile
