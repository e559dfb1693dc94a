// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"

#include <cerrno>
#include <string>
#include <vector>

namespace latemile::tests {

/// Passes every call on to another file system, but for one that fails, once.
class FaultyDisk final : public FileSystem {
public:
    explicit FaultyDisk(FileSystem& under) : m_under(under) {}

    static constexpr int shortWrite = -1; ///< in the place of an error number: half is written

    /// The call of this number, from 0 on, fails with this error number.
    void failAt(std::size_t call, int code)
    {
        m_failing = call;
        m_code = code;
        m_calls.clear();
    }
    void failNever() { failAt(static_cast<std::size_t>(-1), 0); }
    [[nodiscard]] const std::vector<std::string>& calls() const { return m_calls; }

    Called<int> open(const Path& file, int flags, mode_t rights) override
    {
        return fails("open") ? fault() : m_under.open(file, flags, rights);
    }
    Called<std::size_t> read(int descriptor, char* to, std::size_t most) override
    {
        return fails("read") ? fault() : m_under.read(descriptor, to, most);
    }
    Called<std::size_t> write(int descriptor, std::string_view bytes) override
    {
        if (!fails("write")) {
            return m_under.write(descriptor, bytes);
        }
        if (m_code == EINTR) { // said only where nothing was written yet
            return fault();
        }
        // A disk that fills up takes what still fits before it says so.
        const auto half = m_under.write(descriptor, bytes.substr(0, bytes.size() / 2));
        return m_code == shortWrite ? half : fault();
    }
    Called<void> truncate(int descriptor, std::int64_t size) override
    {
        return fails("truncate") ? fault() : m_under.truncate(descriptor, size);
    }
    Called<void> setRights(int descriptor, mode_t rights) override
    {
        return fails("set rights") ? fault() : m_under.setRights(descriptor, rights);
    }
    Called<void> sync(int descriptor) override
    {
        return fails("sync") ? fault() : m_under.sync(descriptor);
    }
    Called<void> syncData(int descriptor) override
    {
        return fails("sync data") ? fault() : m_under.syncData(descriptor);
    }
    Called<void> lock(int descriptor) override
    {
        return fails("lock") ? fault() : m_under.lock(descriptor);
    }
    Called<void> close(int descriptor) override
    {
        const bool failing = fails("close");
        const auto closed = m_under.close(descriptor);
        return failing ? fault() : closed;
    }
    Called<FileFacts> facts(int descriptor) override
    {
        return fails("facts") ? fault() : m_under.facts(descriptor);
    }
    Called<FileFacts> facts(const Path& file) override
    {
        return fails("facts") ? fault() : m_under.facts(file);
    }
    Called<void> link(const Path& from, const Path& to) override
    {
        return fails("link") ? fault() : m_under.link(from, to);
    }
    Called<void> rename(const Path& from, const Path& to) override
    {
        return fails("rename") ? fault() : m_under.rename(from, to);
    }
    Called<void> remove(const Path& file) override
    {
        return fails("remove") ? fault() : m_under.remove(file);
    }
    Called<void> makeFolder(const Path& folder, mode_t rights) override
    {
        return fails("make folder") ? fault() : m_under.makeFolder(folder, rights);
    }
    Called<std::vector<Path>> list(const Path& folder) override
    {
        return fails("list") ? fault() : m_under.list(folder);
    }

private:
    bool fails(const char* call)
    {
        m_calls.emplace_back(call);
        return m_calls.size() - 1 == m_failing;
    }
    [[nodiscard]] tl::unexpected<int> fault() const { return tl::unexpected(m_code); }

    FileSystem& m_under;
    std::size_t m_failing{static_cast<std::size_t>(-1)};
    int m_code{};
    std::vector<std::string> m_calls;
};

} // namespace latemile::tests
