// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/click_errors.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// What a blind repeat told of one coach.
struct Coach {
    std::string name; ///< as in session.json
    std::string date; ///< ISO 8601, of the repeat
    int pairs{};      ///< of marks
    ClickErrors clicks;
    bool operator==(const Coach&) const = default;
};

/// LIBRARY/coaches.json (resources/schema/coaches.schema.json). A library without one has no
/// coaches; faults name file and field.
Outcome<std::vector<Coach>> readCoaches(const std::filesystem::path& library);
/// Puts a coach in place of the one of the same name, or after the others. Atomic.
Outcome<void> keepCoach(const Coach& coach, const std::filesystem::path& library);

/// The coach's own errors, or the defaults where nothing is known of that name.
[[nodiscard]] ClickErrors clickErrorsOf(const std::vector<Coach>& coaches, std::string_view name);
/// The library a session's folder lies in: LIBRARY/ATHLETE/DATE.
[[nodiscard]] std::filesystem::path libraryOf(const std::filesystem::path& sessionFolder);

} // namespace latemile
