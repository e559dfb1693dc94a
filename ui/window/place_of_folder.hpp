// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>
#include <optional>

namespace latemile::ui {

/// What a folder named on the command line or chosen by the coach is.
struct FolderPlace {
    std::filesystem::path library;
    std::optional<std::filesystem::path> athlete;
    std::optional<std::filesystem::path> session;
};

/// A session folder (holds session.json), an athlete's (holds athlete.json) or a library (holds
/// athletes' folders, or nothing yet). A folder that is none of these is an Error.
Outcome<FolderPlace> placeOfFolder(const std::filesystem::path& folder);

} // namespace latemile::ui
