// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// A reason not to run for the camera today before a licensed clinician has been seen.
struct RedFlag {
    std::string_view id;       ///< in session.json: "chest_pain"
    std::string_view question; ///< asked of the athlete: "Chest pain, tightness ...?"
    std::string_view name;     ///< in a sentence: "chest pain or tightness"
};

/// What is asked before filming: common screening practice, no source. It finds no illness; a yes
/// means that the form work waits for a licensed clinician.
[[nodiscard]] std::span<const RedFlag> redFlags();
[[nodiscard]] const RedFlag* findRedFlag(std::string_view id);

/// The answers of one filming day.
struct Screening {
    std::vector<std::string> flags; ///< ids of the questions answered with yes
    std::string note;               ///< the coach's own words about them
    bool operator==(const Screening&) const = default;
};

/// "chest pain or tightness; fever" of the flags raised; an unknown id stands as it is.
[[nodiscard]] std::string flagWords(const Screening& screening);

} // namespace latemile
