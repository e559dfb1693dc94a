// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace latemile {

/// Who has a session open, and where.
struct LockOwner {
    std::string name;
    std::string host;
};
/// The coach by name, else whoever is logged in, at this machine.
[[nodiscard]] LockOwner ownerHere(std::string coach);
[[nodiscard]] std::string wordsFor(const LockOwner& owner); ///< "R. Vale on studio-2"

/// That a session is this program's to write. The lock is one of the system (flock) on
/// session.lock, so that it ends with its program however that ends; the file's text names the
/// owner.
class SessionLock {
public:
    struct Taking;
    /// A folder that cannot be written to is an Error.
    static Outcome<Taking> take(const std::filesystem::path& folder, const LockOwner& owner,
                                FileSystem& files = disk());
    SessionLock(SessionLock&&) = default;
    SessionLock& operator=(SessionLock&&) = default;
    ~SessionLock();

private:
    SessionLock(std::filesystem::path file, OpenFile opened, FileSystem& files);
    std::filesystem::path m_file; ///< empty once moved from
    FileSystem* m_files;
    OpenFile m_open;
};

/// The lock, or who holds it.
struct SessionLock::Taking {
    std::optional<SessionLock> lock;
    std::string heldBy; ///< in words; empty where the lock was taken
};

} // namespace latemile
