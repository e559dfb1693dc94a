// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/place_of_folder.hpp"

namespace latemile::ui {
namespace {

bool has(const std::filesystem::path& folder, const char* file)
{
    std::error_code ignored;
    return std::filesystem::is_regular_file(folder / file, ignored);
}

bool isLibrary(const std::filesystem::path& folder)
{
    std::error_code failed;
    bool empty = true;
    for (const auto& entry : std::filesystem::directory_iterator(folder, failed)) {
        empty = false;
        if (entry.is_directory() && has(entry.path(), "athlete.json")) {
            return true;
        }
    }
    return empty && !failed;
}

} // namespace

Outcome<FolderPlace> placeOfFolder(const std::filesystem::path& folder)
{
    std::error_code failed;
    auto whole = std::filesystem::weakly_canonical(folder, failed);
    if (failed || !std::filesystem::is_directory(whole, failed)) {
        return fail(Error::Kind::NotFound,
                    "There is no folder " + folder.string() + ": choose another.");
    }
    if (has(whole, "session.json") || has(whole, "session.journal")) {
        return FolderPlace{whole.parent_path().parent_path(), whole.parent_path(), whole};
    }
    if (has(whole, "athlete.json")) {
        return FolderPlace{whole.parent_path(), whole, std::nullopt};
    }
    if (isLibrary(whole)) {
        return FolderPlace{whole, std::nullopt, std::nullopt};
    }
    return fail(Error::Kind::NotFound,
                "The folder " + folder.string() +
                    " holds no athletes and no session: choose a library, or an empty folder to "
                    "begin one.");
}

} // namespace latemile::ui
