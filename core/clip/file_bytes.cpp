// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/file_bytes.hpp"

#include <cerrno>
#include <cstdio>
#include <optional>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace latemile {

struct FileBytes::Inside {
    int descriptor = -1;
    std::int64_t size = 0;
    std::optional<std::chrono::steady_clock::time_point> deadline;
    AVIOContext* context = nullptr;

    Inside() = default;
    Inside(const Inside&) = delete;
    Inside& operator=(const Inside&) = delete;
    ~Inside()
    {
        if (context) {
            av_freep(&context->buffer);
            avio_context_free(&context);
        }
        if (descriptor >= 0) {
            ::close(descriptor);
        }
    }
};

namespace {

constexpr int bufferBytes = 64 * 1024;

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

template <class Inside>
int readBytes(void* opaque, std::uint8_t* buffer, int size)
{
    const auto& inside = *static_cast<Inside*>(opaque);
    if (inside.deadline && std::chrono::steady_clock::now() > *inside.deadline) {
        return AVERROR_EXIT;
    }
    ssize_t count = 0;
    do {
        count = ::read(inside.descriptor, buffer, static_cast<std::size_t>(size));
    } while (count < 0 && errno == EINTR);
    if (count < 0) {
        return AVERROR(errno);
    }
    return count == 0 ? AVERROR_EOF : static_cast<int>(count);
}

template <class Inside>
std::int64_t seekBytes(void* opaque, std::int64_t offset, int whence)
{
    const auto& inside = *static_cast<Inside*>(opaque);
    if (whence & AVSEEK_SIZE) {
        return inside.size;
    }
    const auto place = ::lseek(inside.descriptor, offset, whence & ~AVSEEK_FORCE);
    return place < 0 ? AVERROR(errno) : place;
}

} // namespace

Outcome<FileBytes> FileBytes::open(const std::filesystem::path& file)
{
    auto inside = std::make_unique<Inside>();
    // Not to block: opening a pipe without a writer would wait for ever.
    inside->descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (inside->descriptor < 0) {
        return cannotOpen(file, errno);
    }
    struct stat status {};
    if (::fstat(inside->descriptor, &status) != 0) {
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
    inside->size = status.st_size;
    auto* buffer = static_cast<unsigned char*>(av_malloc(bufferBytes));
    inside->context = buffer ? avio_alloc_context(buffer, bufferBytes, 0, inside.get(),
                                                  readBytes<Inside>, nullptr, seekBytes<Inside>)
                             : nullptr;
    if (!inside->context) {
        av_free(buffer);
        return fail(Error::Kind::Unsupported, "There is not enough memory to read " + quoted(file) +
                                                  "; close other programs.");
    }
    return FileBytes(std::move(inside));
}

FileBytes::FileBytes(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
FileBytes::FileBytes(FileBytes&&) noexcept = default;
FileBytes& FileBytes::operator=(FileBytes&&) noexcept = default;
FileBytes::~FileBytes() = default;

AVIOContext* FileBytes::context() const
{
    return m_inside->context;
}

std::int64_t FileBytes::size() const
{
    return m_inside->size;
}

void FileBytes::setDeadline(std::chrono::steady_clock::time_point deadline)
{
    m_inside->deadline = deadline;
}

void FileBytes::clearDeadline()
{
    m_inside->deadline.reset();
}

} // namespace latemile
