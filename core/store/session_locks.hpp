// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session_lock.hpp"

#include <filesystem>
#include <vector>

namespace latemile {

/// Takes every session of an athlete's folder, so that nobody writes to any of them while the
/// locks are held. An Error that names the session and its holder where one is open.
Outcome<std::vector<SessionLock>> takeAllSessions(const std::filesystem::path& athleteFolder);

} // namespace latemile
