// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/resource_folder.hpp"

namespace latemile {

std::filesystem::path resourceFolder()
{
    std::error_code fault;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", fault);
    if (!fault) {
        auto installed = program.parent_path().parent_path() / "share" / "latemile";
        if (std::filesystem::is_directory(installed, fault)) {
            return installed;
        }
    }
    return LATEMILE_RESOURCES;
}

} // namespace latemile
