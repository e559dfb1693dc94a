// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>

namespace latemile {

/// Removes an athlete's folder (the one that holds athlete.json) with all that is in it: documents
/// and their previous generations, journals, clips, sheets, and whatever else was put there. An
/// Error, and nothing removed, where a session of it is open anywhere.
Outcome<void> removeAthlete(const std::filesystem::path& folder);

} // namespace latemile
