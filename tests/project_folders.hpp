// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace latemile::tests {

/// The root of the source tree: sample_clips, resources and the tests' data lie below it.
std::filesystem::path sourceFolder();

/// The root of the build tree: programs are in its bin, and tests may put files of their own there.
std::filesystem::path binaryFolder();

} // namespace latemile::tests
