// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace latemile {

/// Where the data that belongs to the program lies (cues.json, schema/): share/latemile beside the
/// folder of an installed program, else the resources of the source tree it was built from.
[[nodiscard]] std::filesystem::path resourceFolder();

} // namespace latemile
