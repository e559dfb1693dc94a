// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace latemile {

/// The sum of these fields of a process's status ("VmRSS:"), MB of 1024 × 1024 bytes. `process` is
/// its number, or "self".
[[nodiscard]] double megabytesOf(const std::string& process,
                                 const std::vector<std::string>& fields);
/// The same of all that this program started itself, together.
[[nodiscard]] double megabytesOfWorkers(const std::vector<std::string>& fields);

} // namespace latemile
