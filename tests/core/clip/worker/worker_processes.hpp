// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/worker/decoding_place.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include <sys/types.h>

namespace latemile::test {

/// Clips are decoded in workers while this lives.
class InWorkers {
public:
    explicit InWorkers(const WorkerTerms& terms = {}) { decodeInWorkers(terms); }
    InWorkers(const InWorkers&) = delete;
    InWorkers& operator=(const InWorkers&) = delete;
    ~InWorkers() { decodeInProcess(); }
};

/// The processes that this one started and has not waited for, dead ones among them.
[[nodiscard]] std::vector<pid_t> children();
/// One line of what the kernel tells of a process: statusOf(id, "Seccomp").
[[nodiscard]] std::string statusOf(pid_t process, const std::string& name);
[[nodiscard]] std::size_t openDescriptors();

} // namespace latemile::test
