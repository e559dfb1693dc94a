// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace latemile::fuzz {

/// A reader of something from outside, given bytes as they may come. It returns, whatever they are,
/// whether they were taken; where it refuses them it does so in one sentence. Anything else ends
/// the process.
struct Target {
    std::string_view name; ///< "marks"
    bool (*read)(std::string_view bytes);
    std::string (*seed)(); ///< a sound one to begin from; empty: made by the test itself
};

[[nodiscard]] std::span<const Target> targets();
/// Ends the process where there is none of that name.
[[nodiscard]] const Target& targetNamed(std::string_view name);

/// Where seeds for libFuzzer are wanted: LATEMILE_SEEDS, else the folder worked in.
[[nodiscard]] std::filesystem::path seedFolder();

} // namespace latemile::fuzz
