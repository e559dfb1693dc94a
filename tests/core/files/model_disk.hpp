// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/file_system.hpp"

#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace latemile::tests {

/// A disk in memory that knows what was synced, so that the power can be cut at any moment. What
/// may then be there is what POSIX leaves open: bytes never synced are there, half there or not;
/// of the names changed since the folder was synced, any first few are.
class ModelDisk final : public FileSystem {
public:
    /// What lies on the disk: the names of one folder and below, and the bytes behind them.
    struct Tree {
        std::map<std::filesystem::path, int> names;
        std::map<int, std::string> bytes;
    };

    ModelDisk() = default;
    explicit ModelDisk(Tree tree)
        : m_start(std::move(tree)), m_now(m_start),
          m_nextFile(m_start.bytes.empty() ? 0 : m_start.bytes.rbegin()->first + 1)
    {
    }

    /// Puts a file there as something long on disk.
    void put(const Path& file, std::string_view bytes);
    [[nodiscard]] std::string bytesOf(const Path& file) const; ///< empty where there is none
    [[nodiscard]] bool has(const Path& file) const { return m_now.names.contains(file); }
    [[nodiscard]] std::vector<Path> names() const;

    /// How many changes there were, and what may be left when the power goes after the first of
    /// them.
    [[nodiscard]] std::size_t changes() const { return m_log.size(); }
    void afterPowerCut(std::size_t changes, const std::function<void(ModelDisk)>& look) const;

    Called<int> open(const Path& file, int flags, mode_t rights) override;
    Called<std::size_t> read(int descriptor, char* to, std::size_t most) override;
    Called<std::size_t> write(int descriptor, std::string_view bytes) override;
    Called<void> truncate(int descriptor, std::int64_t size) override;
    Called<void> setRights(int, mode_t) override { return {}; }
    Called<void> sync(int descriptor) override;
    Called<void> syncData(int descriptor) override { return sync(descriptor); }
    Called<void> lock(int descriptor) override;
    Called<void> close(int descriptor) override;
    Called<FileFacts> facts(int descriptor) override;
    Called<FileFacts> facts(const Path& file) override;
    Called<void> link(const Path& from, const Path& to) override;
    Called<void> rename(const Path& from, const Path& to) override;
    Called<void> remove(const Path& file) override;
    Called<void> makeFolder(const Path&, mode_t) override { return {}; }
    Called<std::vector<Path>> list(const Path& folder) override;

private:
    struct Opened {
        int file{-1}; ///< -1: a folder
        Path folder;
        std::size_t at{};
        bool append{};
    };
    /// One change: of the names, of the bytes of a file, or a sync of either.
    struct Change {
        std::function<void(Tree&)> names;
        int file{-1};
        std::function<void(std::string&)> bytes;
        bool sync{};
    };
    void changeNames(std::function<void(Tree&)> change);
    void changeBytes(int file, std::function<void(std::string&)> change);

    Tree m_start; ///< all of it on disk
    Tree m_now;
    std::vector<Change> m_log;
    std::map<int, Opened> m_open;
    std::set<int> m_locked; ///< files
    std::map<int, int> m_lockOf;
    int m_nextFile{};
    int m_nextDescriptor{3};
};

} // namespace latemile::tests
