// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <random>
#include <string>
#include <string_view>

namespace latemile::fuzz {

/// A damaged copy: bits turned over, bytes put in, taken out, doubled or exchanged, numbers made
/// extreme, the end cut off; one to eight of these. The same dice give the same copy.
[[nodiscard]] std::string mutated(std::string_view sound, std::mt19937& dice);
/// Only the end cut off, somewhere.
[[nodiscard]] std::string truncated(std::string_view sound, std::mt19937& dice);

} // namespace latemile::fuzz
