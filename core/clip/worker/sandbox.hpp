// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace latemile {

/// The descriptor by which a worker talks with the program that started it.
inline constexpr int workerSocket = 3;

/// Takes from this process, for good, what decoding does not need: see "The decoding worker" in
/// DEVELOPERS.md. Before the first hostile byte and while there is one thread. Gives what could not
/// be had, in which case nothing may be decoded; Landlock alone may be missing, on kernels without.
[[nodiscard]] std::optional<std::string> enterSandbox();

// Its parts, in the order they are called.
[[nodiscard]] bool setLimits();
/// No file may be opened, made or removed by name, no port bound or connected to, no process
/// outside signalled. True also where this kernel has no Landlock.
[[nodiscard]] bool shutFileSystem();
/// Every system call that is not on the list is refused with EPERM.
[[nodiscard]] bool allowFewSystemCalls();

} // namespace latemile
