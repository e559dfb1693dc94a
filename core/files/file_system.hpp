// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tl/expected.hpp>

#include <sys/types.h>

#include <cstdint>
#include <filesystem>
#include <string_view>
#include <vector>

namespace latemile {

/// What a call of the system gave, or its error number (errno).
template <class T>
using Called = tl::expected<T, int>;

/// What is known of a file without reading it.
struct FileFacts {
    enum class Kind { Plain, Folder, Other };
    Kind kind{};
    std::int64_t size{};   ///< bytes
    mode_t rights{};       ///< the lower twelve bits
    std::uint64_t inode{}; ///< the same number: the same file, whatever its name
};

/// The calls by which our documents reach a disk, each like the system's own of that name. All file
/// work of documents goes through here, so that a test can let any single call fail, or forget
/// what was never synced as a power cut does. The functions may be called from several threads.
class FileSystem {
public:
    using Path = std::filesystem::path;
    virtual ~FileSystem() = default;

    /// `flags` and `rights` as of open(2); O_CLOEXEC is added.
    virtual Called<int> open(const Path& file, int flags, mode_t rights) = 0;
    virtual Called<std::size_t> read(int descriptor, char* to, std::size_t most) = 0;
    virtual Called<std::size_t> write(int descriptor, std::string_view bytes) = 0;
    virtual Called<void> truncate(int descriptor, std::int64_t size) = 0;
    virtual Called<void> setRights(int descriptor, mode_t rights) = 0;
    virtual Called<void> sync(int descriptor) = 0;     ///< fsync; of a folder: its names
    virtual Called<void> syncData(int descriptor) = 0; ///< fdatasync
    /// A lock of the whole file for this descriptor alone, without waiting: EWOULDBLOCK where
    /// another holds it. Goes with the descriptor, so with the death of its process.
    virtual Called<void> lock(int descriptor) = 0;
    virtual Called<void> close(int descriptor) = 0; ///< the descriptor is gone even on an error
    virtual Called<FileFacts> facts(int descriptor) = 0;
    virtual Called<FileFacts> facts(const Path& file) = 0; ///< follows links
    virtual Called<void> link(const Path& from, const Path& to) = 0;
    virtual Called<void> rename(const Path& from, const Path& to) = 0;
    virtual Called<void> remove(const Path& file) = 0;
    virtual Called<void> makeFolder(const Path& folder, mode_t rights) = 0;
    virtual Called<std::vector<Path>> list(const Path& folder) = 0; ///< whole paths, by name
};

/// The file system of this machine.
[[nodiscard]] FileSystem& disk();

/// A descriptor that closes with its owner.
class OpenFile {
public:
    OpenFile(FileSystem& files, int descriptor) : m_files(&files), m_descriptor(descriptor) {}
    OpenFile(OpenFile&& other) noexcept;
    OpenFile& operator=(OpenFile&& other) noexcept;
    ~OpenFile();
    [[nodiscard]] int descriptor() const { return m_descriptor; }
    /// An error where the last bytes did not reach the disk (network file systems say so only now).
    Called<void> close();

private:
    FileSystem* m_files;
    int m_descriptor;
};

/// open() with the owner of what it opened.
Called<OpenFile> openFile(FileSystem& files, const std::filesystem::path& file, int flags,
                          mode_t rights = 0);
/// Goes on after short writes; a write of nothing counts as a full disk.
Called<void> writeAll(FileSystem& files, int descriptor, std::string_view bytes);
/// Makes what happened to the names in a folder last.
Called<void> syncFolder(FileSystem& files, const std::filesystem::path& folder);
/// The folder a file lies in; "." for a bare name.
[[nodiscard]] std::filesystem::path folderOf(const std::filesystem::path& file);

} // namespace latemile
