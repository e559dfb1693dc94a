// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_system.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>

namespace latemile {

namespace {

/// 0 is success to most calls of the system.
Called<void> done(int result)
{
    return result == 0 ? Called<void>() : tl::unexpected(errno);
}

template <class Number>
Called<std::size_t> counted(Number result)
{
    return result >= 0 ? Called<std::size_t>(static_cast<std::size_t>(result))
                       : tl::unexpected(errno);
}

FileFacts factsOf(const struct stat& now)
{
    return {.kind = S_ISREG(now.st_mode)   ? FileFacts::Kind::Plain
                    : S_ISDIR(now.st_mode) ? FileFacts::Kind::Folder
                                           : FileFacts::Kind::Other,
            .size = now.st_size,
            .rights = now.st_mode & 07777U,
            .inode = now.st_ino};
}

class RealDisk final : public FileSystem {
public:
    Called<int> open(const Path& file, int flags, mode_t rights) override
    {
        const int descriptor = ::open(file.c_str(), flags | O_CLOEXEC, rights);
        return descriptor >= 0 ? Called<int>(descriptor) : tl::unexpected(errno);
    }
    Called<std::size_t> read(int descriptor, char* to, std::size_t most) override
    {
        return counted(::read(descriptor, to, most));
    }
    Called<std::size_t> write(int descriptor, std::string_view bytes) override
    {
        return counted(::write(descriptor, bytes.data(), bytes.size()));
    }
    Called<void> truncate(int descriptor, std::int64_t size) override
    {
        return done(::ftruncate(descriptor, size));
    }
    Called<void> setRights(int descriptor, mode_t rights) override
    {
        return done(::fchmod(descriptor, rights));
    }
    Called<void> sync(int descriptor) override { return done(::fsync(descriptor)); }
    Called<void> syncData(int descriptor) override { return done(::fdatasync(descriptor)); }
    Called<void> lock(int descriptor) override
    {
        return done(::flock(descriptor, LOCK_EX | LOCK_NB));
    }
    Called<void> close(int descriptor) override { return done(::close(descriptor)); }
    Called<FileFacts> facts(int descriptor) override
    {
        struct stat now {};
        return ::fstat(descriptor, &now) == 0 ? Called<FileFacts>(factsOf(now))
                                              : tl::unexpected(errno);
    }
    Called<FileFacts> facts(const Path& file) override
    {
        struct stat now {};
        return ::stat(file.c_str(), &now) == 0 ? Called<FileFacts>(factsOf(now))
                                               : tl::unexpected(errno);
    }
    Called<void> link(const Path& from, const Path& to) override
    {
        return done(::link(from.c_str(), to.c_str()));
    }
    Called<void> rename(const Path& from, const Path& to) override
    {
        return done(::rename(from.c_str(), to.c_str()));
    }
    Called<void> remove(const Path& file) override { return done(::unlink(file.c_str())); }
    Called<void> makeFolder(const Path& folder, mode_t rights) override
    {
        return done(::mkdir(folder.c_str(), rights));
    }
    Called<std::vector<Path>> list(const Path& folder) override
    {
        std::error_code fault;
        std::vector<Path> entries;
        for (std::filesystem::directory_iterator entry(folder, fault), end; !fault && entry != end;
             entry.increment(fault)) {
            entries.push_back(entry->path());
        }
        if (fault) {
            return tl::unexpected(fault.value());
        }
        std::ranges::sort(entries);
        return entries;
    }
};

} // namespace

FileSystem& disk()
{
    static RealDisk real; // holds nothing: one serves all
    return real;
}

} // namespace latemile
