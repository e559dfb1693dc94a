// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/file_bytes.hpp"

#include <cstdio>
#include <optional>

namespace latemile {

struct FileBytes::Inside {
    ClipFile file;
    std::int64_t place = 0;
    std::optional<std::chrono::steady_clock::time_point> deadline{};
    AVIOContext* context = nullptr;

    explicit Inside(const ClipFile& opened) : file(opened) {}
    Inside(const Inside&) = delete;
    Inside& operator=(const Inside&) = delete;
    ~Inside()
    {
        if (context) {
            av_freep(&context->buffer);
            avio_context_free(&context);
        }
    }
};

namespace {

constexpr int bufferBytes = 64 * 1024;

template <class Inside>
int readBytes(void* opaque, std::uint8_t* buffer, int size)
{
    auto& inside = *static_cast<Inside*>(opaque);
    if (inside.deadline && std::chrono::steady_clock::now() > *inside.deadline) {
        return AVERROR_EXIT;
    }
    const auto count = inside.file.readAt(inside.place, buffer, static_cast<std::size_t>(size));
    if (count < 0) {
        return AVERROR(static_cast<int>(-count));
    }
    inside.place += count;
    return count == 0 ? AVERROR_EOF : static_cast<int>(count);
}

template <class Inside>
std::int64_t seekBytes(void* opaque, std::int64_t offset, int whence)
{
    auto& inside = *static_cast<Inside*>(opaque);
    if (whence & AVSEEK_SIZE) {
        return inside.file.size();
    }
    const int from = whence & ~AVSEEK_FORCE;
    const auto base = from == SEEK_CUR   ? inside.place
                      : from == SEEK_END ? inside.file.size()
                                         : std::int64_t{0};
    std::int64_t place = 0;
    if (__builtin_add_overflow(base, offset, &place) || place < 0) {
        return AVERROR(EINVAL);
    }
    inside.place = place;
    return place;
}

} // namespace

Outcome<FileBytes> FileBytes::of(const ClipFile& file)
{
    auto inside = std::make_unique<Inside>(file);
    auto* buffer = static_cast<unsigned char*>(av_malloc(bufferBytes));
    inside->context = buffer ? avio_alloc_context(buffer, bufferBytes, 0, inside.get(),
                                                  readBytes<Inside>, nullptr, seekBytes<Inside>)
                             : nullptr;
    if (!inside->context) {
        av_free(buffer);
        return fail(Error::Kind::Unsupported, "There is not enough memory to read " + file.name() +
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

const ClipFile& FileBytes::file() const
{
    return m_inside->file;
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
