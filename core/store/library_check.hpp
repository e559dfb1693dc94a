// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// Something a check of a library has to say about one file.
struct Finding {
    enum class State { Bad, Repaired, Note };
    std::filesystem::path file; ///< below the library
    State state{};
    std::string sentence;
    bool operator==(const Finding&) const = default;
};
[[nodiscard]] std::string_view nameOf(Finding::State state); ///< "bad", "repaired", "note"

struct LibraryCheck {
    int documents{};
    int journals{};
    int clips{};
    int clipsWithSums{}; ///< whose checksum was written down when they came
    std::vector<Finding> findings;
    [[nodiscard]] bool isSound() const;
};
[[nodiscard]] nlohmann::json toJson(const LibraryCheck& check);

struct CheckWish {
    /// Puts back what the previous generation or a journal holds, and writes down checksums that
    /// are missing. Deletes nothing: what was damaged is kept under another name.
    bool repair{};
    /// With `repair`: where linked films that are lost, or are no longer the films that came in,
    /// are looked for by their checksums. Empty: nowhere.
    std::filesystem::path films{};
    /// ISO 8601; pictures kept past the end of their athlete's consent are noted. Empty: not looked
    /// at.
    std::string today{};
};

/// Reads every document, journal and clip of a library: LIBRARY/ATHLETE/DATE. A folder that cannot
/// be listed is an Error. Reads the clips whole: as long as the disk takes.
Outcome<LibraryCheck> checkLibrary(const std::filesystem::path& library, const CheckWish& wish,
                                   FileSystem& files = disk());

} // namespace latemile
