// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/descriptor.hpp"

#include <optional>
#include <string>
#include <utility>

#include <sys/types.h>

namespace latemile {

/// The argument that makes this program a worker; the second is the number of its parent process.
inline constexpr const char* workerArgument = "--decode-worker";
/// A third one, where it is to take fields apart.
inline constexpr const char* withFieldsArgument = "--with-fields";

enum class FieldsTaken { No, Yes };

/// A process of this program that decodes; ended and waited for when this goes.
class WorkerProcess {
public:
    /// Starts `program` with `socket` as its descriptor 3 and nothing else of ours. Nothing when
    /// the system has no room for another process, or no such program.
    [[nodiscard]] static std::optional<WorkerProcess>
    start(const std::string& program, const Descriptor& socket, FieldsTaken fields);

    WorkerProcess(WorkerProcess&& other) noexcept : m_id(std::exchange(other.m_id, 0)) {}
    WorkerProcess& operator=(WorkerProcess&& other) noexcept
    {
        std::swap(m_id, other.m_id);
        return *this;
    }
    ~WorkerProcess();

private:
    explicit WorkerProcess(pid_t id) : m_id(id) {}
    pid_t m_id;
};

} // namespace latemile
