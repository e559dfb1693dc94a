// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <vector>

namespace latemile {

/// The folders below an athlete's that hold a session.json, in order of their names, which are
/// dates. A folder that cannot be listed gives none.
[[nodiscard]] std::vector<std::filesystem::path>
sessionFoldersOf(const std::filesystem::path& athleteFolder);

} // namespace latemile
