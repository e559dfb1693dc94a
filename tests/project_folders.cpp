// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/project_folders.hpp"

namespace latemile::tests {

std::filesystem::path sourceFolder()
{
    return LATEMILE_SOURCE_DIR;
}

std::filesystem::path binaryFolder()
{
    return LATEMILE_BINARY_DIR;
}

} // namespace latemile::tests
