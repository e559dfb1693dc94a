// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <filesystem>

namespace latemile::test {

/// Fails unless the reader gives, in order, backwards and shuffled, exactly the frames that a plain
/// decoding loop from the start gives.
void checkEveryFrame(const std::filesystem::path& file, const ClipOptions& options = {});

} // namespace latemile::test
