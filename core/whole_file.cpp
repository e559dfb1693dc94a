// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <optional>
#include <system_error>

namespace latemile {

namespace {

constexpr off_t largestFile = off_t{256} << 20;

std::string wordsOf(int code)
{
    return std::generic_category().message(code);
}

tl::unexpected<Error> readFault(const std::filesystem::path& file, int code)
{
    if (code == ENOENT || code == ENOTDIR) {
        return fail(Error::Kind::NotFound, "There is no file " + file.string() + ".");
    }
    return fail(Error::Kind::Unsupported,
                "The file " + file.string() + " could not be read: " + wordsOf(code) + ".");
}

tl::unexpected<Error> writeFault(const std::filesystem::path& file, int code)
{
    const bool full = code == ENOSPC || code == EDQUOT || code == EFBIG;
    return fail(full ? Error::Kind::DiskFull : Error::Kind::Unsupported,
                "The file " + file.string() + " could not be written: " + wordsOf(code) + ".");
}

/// A descriptor and, while it has a name, the unfinished file it belongs to: gone with this owner.
class OpenFile {
public:
    explicit OpenFile(int descriptor) : m_descriptor(descriptor) {}
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;
    ~OpenFile()
    {
        if (m_descriptor >= 0) {
            ::close(m_descriptor);
        }
        if (!m_unfinished.empty()) {
            ::unlink(m_unfinished.c_str());
        }
    }
    [[nodiscard]] int descriptor() const { return m_descriptor; }
    void removeUnlessFinished(std::filesystem::path name) { m_unfinished = std::move(name); }
    [[nodiscard]] const std::filesystem::path& unfinished() const { return m_unfinished; }
    void finished() { m_unfinished.clear(); }
    /// False with errno where the last bytes did not reach the disk (network file systems say so
    /// only now).
    [[nodiscard]] bool close() { return ::close(std::exchange(m_descriptor, -1)) == 0; }

private:
    int m_descriptor;
    std::filesystem::path m_unfinished;
};

bool writeAll(int descriptor, std::string_view bytes)
{
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            errno = written == 0 ? ENOSPC : errno;
            return false;
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

/// Where the bytes go: a link is followed, so that it goes on pointing at the new content.
std::filesystem::path followedLink(const std::filesystem::path& file)
{
    std::error_code ignored;
    if (!std::filesystem::is_symlink(file, ignored)) {
        return file;
    }
    auto target = std::filesystem::weakly_canonical(file, ignored);
    return ignored ? file : target;
}

std::filesystem::path folderOf(const std::filesystem::path& file)
{
    return file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
}

/// The rights the file has now; those of a new file where there is none.
Outcome<std::optional<mode_t>> rightsToKeep(const std::filesystem::path& file)
{
    struct stat now {};
    if (::stat(file.c_str(), &now) != 0) {
        if (errno == ENOENT) {
            return std::optional<mode_t>{};
        }
        return writeFault(file, errno);
    }
    if (!S_ISREG(now.st_mode)) {
        return fail(Error::Kind::Unsupported,
                    file.string() +
                        " is not a plain file and cannot be replaced: name a file instead.");
    }
    return std::optional<mode_t>{now.st_mode & 07777U};
}

/// A new file beside `target`; the process number keeps two programs apart.
int openBeside(const std::filesystem::path& target, std::filesystem::path& name)
{
    for (int attempt = 0; attempt < 100; ++attempt) {
        name = folderOf(target) / ("." + target.filename().string() + "." +
                                   std::to_string(::getpid()) + "-" + std::to_string(attempt));
        const int descriptor = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (descriptor >= 0 || errno != EEXIST) {
            return descriptor;
        }
    }
    return -1;
}

bool syncFolder(const std::filesystem::path& folder)
{
    const OpenFile opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    // Some file systems cannot sync a folder and say EINVAL: the rename is then as safe as it gets.
    return opened.descriptor() >= 0 && (::fsync(opened.descriptor()) == 0 || errno == EINVAL);
}

} // namespace

Outcome<std::string> readWholeFile(const std::filesystem::path& file)
{
    // Without O_NONBLOCK a pipe that nobody writes to would hang the program here.
    const OpenFile opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    struct stat now {};
    if (opened.descriptor() < 0 || ::fstat(opened.descriptor(), &now) != 0) {
        return readFault(file, errno);
    }
    if (!S_ISREG(now.st_mode)) {
        return fail(Error::Kind::Unsupported,
                    file.string() + (S_ISDIR(now.st_mode) ? " is a folder, not a file."
                                                          : " is not a plain file."));
    }
    if (now.st_size > largestFile) {
        return fail(Error::Kind::Unsupported,
                    "The file " + file.string() + " is larger than 256 MiB, too large to be ours.");
    }
    std::string bytes;
    bytes.reserve(static_cast<std::size_t>(now.st_size));
    std::array<char, 1 << 16> block{};
    while (true) {
        const ssize_t got = ::read(opened.descriptor(), block.data(), block.size());
        if (got == 0) {
            return bytes;
        }
        if (got < 0 && errno != EINTR) {
            return readFault(file, errno);
        }
        bytes.append(block.data(), static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    }
}

Outcome<void> replaceFile(const std::filesystem::path& file, std::string_view bytes)
{
    const auto target = followedLink(file);
    ASSIGN_OR_RETURN(const auto rights, rightsToKeep(target));
    std::filesystem::path name;
    OpenFile beside(openBeside(target, name));
    if (beside.descriptor() < 0) {
        return writeFault(file, errno);
    }
    beside.removeUnlessFinished(name);
    const bool whole = writeAll(beside.descriptor(), bytes) &&
                       (!rights || ::fchmod(beside.descriptor(), *rights) == 0) &&
                       ::fsync(beside.descriptor()) == 0 && beside.close() &&
                       ::rename(name.c_str(), target.c_str()) == 0;
    if (!whole) {
        return writeFault(file, errno);
    }
    beside.finished();
    if (!syncFolder(folderOf(target))) {
        return writeFault(file, errno);
    }
    return {};
}

} // namespace latemile
