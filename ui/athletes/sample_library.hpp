// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>

namespace latemile::ui {

/// Where a coach's athletes are kept until another library is opened.
[[nodiscard]] std::filesystem::path ownLibrary();

/// Where the sample athlete's folder is as installed, read only.
[[nodiscard]] std::filesystem::path sampleFolder();

/// Copies the sample athlete, a fictional person, into `library`; one that is there already stays
/// as it is. Returns the folder of her first session.
Outcome<std::filesystem::path> addSampleAthlete(const std::filesystem::path& library);

} // namespace latemile::ui
