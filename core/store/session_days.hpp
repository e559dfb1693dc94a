// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <filesystem>
#include <string>

namespace latemile {

/// The days a session names.
struct SessionDays {
    std::string date;       ///< ISO 8601
    std::string nextRefilm; ///< as of Session: empty where none is stated
};

/// Reads nothing else of session.json: for lists of very many, several times as fast as
/// readSession. A text that is no JSON is an Error; what the session says besides is not looked at.
Outcome<SessionDays> sessionDaysOf(const std::filesystem::path& folder);

} // namespace latemile
