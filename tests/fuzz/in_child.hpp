// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>

namespace latemile::fuzz {

/// Which of a row of trials ended its process, and how.
struct Ended {
    int trial{};
    int signal{}; ///< SIGALRM: it hung
};

/// Runs trials `from` to `to` (less one) in a process of its own, each with five seconds. Nothing
/// where all returned.
[[nodiscard]] std::optional<Ended> endedIn(int from, int to, const std::function<void(int)>& trial);

} // namespace latemile::fuzz
