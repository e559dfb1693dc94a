// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_system.hpp"

#include <fcntl.h>

#include <cerrno>
#include <utility>

namespace latemile {

OpenFile::OpenFile(OpenFile&& other) noexcept
    : m_files(other.m_files), m_descriptor(std::exchange(other.m_descriptor, -1))
{
}

OpenFile& OpenFile::operator=(OpenFile&& other) noexcept
{
    std::swap(m_files, other.m_files);
    std::swap(m_descriptor, other.m_descriptor);
    return *this;
}

OpenFile::~OpenFile()
{
    (void)close();
}

Called<void> OpenFile::close()
{
    const int descriptor = std::exchange(m_descriptor, -1);
    return descriptor < 0 ? Called<void>() : m_files->close(descriptor);
}

Called<OpenFile> openFile(FileSystem& files, const std::filesystem::path& file, int flags,
                          mode_t rights)
{
    const auto descriptor = files.open(file, flags, rights);
    if (!descriptor) {
        return tl::unexpected(descriptor.error());
    }
    return OpenFile(files, *descriptor);
}

Called<void> writeAll(FileSystem& files, int descriptor, std::string_view bytes)
{
    while (!bytes.empty()) {
        const auto written = files.write(descriptor, bytes);
        if (!written && written.error() == EINTR) {
            continue;
        }
        if (!written || *written == 0) {
            return tl::unexpected(written ? ENOSPC : written.error());
        }
        bytes.remove_prefix(*written);
    }
    return {};
}

Called<void> syncFolder(FileSystem& files, const std::filesystem::path& folder)
{
    const auto opened = openFile(files, folder, O_RDONLY | O_DIRECTORY);
    if (!opened) {
        return tl::unexpected(opened.error());
    }
    const auto synced = files.sync(opened->descriptor());
    // Some file systems cannot sync a folder and say EINVAL: its names are then as safe as they
    // get.
    return synced || synced.error() == EINVAL ? Called<void>() : synced;
}

std::filesystem::path folderOf(const std::filesystem::path& file)
{
    return file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
}

} // namespace latemile
