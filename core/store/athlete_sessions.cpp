// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/athlete_sessions.hpp"

#include <algorithm>
#include <system_error>

namespace latemile {

std::vector<std::filesystem::path> sessionFoldersOf(const std::filesystem::path& athleteFolder)
{
    std::vector<std::filesystem::path> folders;
    std::error_code failed;
    for (const auto& entry : std::filesystem::directory_iterator(athleteFolder, failed)) {
        std::error_code ignored;
        if (std::filesystem::is_regular_file(entry.path() / "session.json", ignored)) {
            folders.push_back(entry.path());
        }
    }
    std::ranges::sort(folders);
    return folders;
}

} // namespace latemile
