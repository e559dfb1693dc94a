// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace latemile::ui {

/// A file of the resources: where the program is installed, else in the tree it was built in.
[[nodiscard]] std::filesystem::path resourceFile(const char* name);

} // namespace latemile::ui
