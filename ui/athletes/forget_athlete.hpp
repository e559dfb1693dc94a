// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QString>

#include <filesystem>

namespace latemile::ui {

/// Takes out of the settings what tells of an athlete: files added last and folders looked at last
/// that lie in the athlete's folder or bear the name or code, however they spell its gaps.
void forgetInSettings(const Athlete& athlete, const std::filesystem::path& folder);

/// What goes with an athlete, in words.
[[nodiscard]] QString wordsForRemoval(const std::filesystem::path& folder);

} // namespace latemile::ui
