// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_file.hpp"

#include <cerrno>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace latemile {

namespace {

std::string quoted(const std::filesystem::path& file)
{
    return "\"" + file.string() + "\"";
}

tl::unexpected<Error> cannotOpen(const std::filesystem::path& file, int code)
{
    const auto detail = std::generic_category().message(code);
    if (code == ENOENT || code == ENOTDIR) {
        return fail(Error::Kind::NotFound,
                    "There is no file " + quoted(file) + "; check its name and folder.", detail);
    }
    if (code == EACCES || code == EPERM) {
        return fail(Error::Kind::Unsupported,
                    "The file " + quoted(file) +
                        " may not be read by you; ask its owner for the right to read it.",
                    detail);
    }
    return fail(Error::Kind::NotFound,
                "The file " + quoted(file) +
                    " cannot be opened; copy it to this machine and try "
                    "again.",
                detail);
}

} // namespace

Outcome<ClipFile> ClipFile::open(const std::filesystem::path& file)
{
    // Not to block: opening a pipe without a writer would wait for ever.
    Descriptor opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    struct stat status {};
    if (!opened.isOpen() || ::fstat(opened.number(), &status) != 0) {
        return cannotOpen(file, errno);
    }
    if (S_ISDIR(status.st_mode)) {
        return fail(Error::Kind::Unsupported,
                    quoted(file) + " is a folder; name one video file in it.");
    }
    if (!S_ISREG(status.st_mode)) {
        return fail(Error::Kind::Unsupported,
                    quoted(file) + " is no ordinary file; copy the clip to a file first.");
    }
    if (status.st_size == 0) {
        return fail(Error::Kind::Damaged, "The file " + quoted(file) +
                                              " is empty; copy it again from the camera or phone.");
    }
    return ClipFile(std::move(opened), status.st_size, file);
}

ClipFile::ClipFile(Descriptor opened, std::int64_t size, std::filesystem::path path)
    : m_descriptor(std::make_shared<const Descriptor>(std::move(opened))), m_size(size),
      m_path(std::move(path))
{
}

std::int64_t ClipFile::readAt(std::int64_t place, void* into, std::size_t size) const
{
    if (m_onRead) {
        m_onRead();
    }
    std::size_t done = 0;
    while (done < size) {
        const auto count = ::pread(descriptor(), static_cast<char*>(into) + done, size - done,
                                   place + static_cast<std::int64_t>(done));
        if (count == 0) {
            break;
        }
        if (count > 0) {
            done += static_cast<std::size_t>(count);
        } else if (errno != EINTR) {
            return -errno;
        }
    }
    return static_cast<std::int64_t>(done);
}

} // namespace latemile
