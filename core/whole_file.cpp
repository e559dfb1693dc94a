// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/whole_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <optional>
#include <system_error>
#include <utility>

namespace latemile {

namespace {

constexpr std::int64_t largestFile = std::int64_t{256} << 20;
constexpr mode_t ownersAlone = 0600;
constexpr mode_t asTheSystemSays = 0666; ///< less the umask

std::string wordsOf(int code)
{
    return std::generic_category().message(code);
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

/// A name beside `file` that goes again with this owner, unless it became another.
class NameBeside {
public:
    explicit NameBeside(FileSystem& files) : m_files(files) {}
    NameBeside(const NameBeside&) = delete;
    NameBeside& operator=(const NameBeside&) = delete;
    ~NameBeside()
    {
        if (!m_name.empty()) {
            (void)m_files.remove(m_name);
        }
    }
    /// Tries names till `make` does not find one taken; the process number keeps two programs
    /// apart.
    template <class Make>
    auto take(const std::filesystem::path& file, Make make) -> decltype(make(file))
    {
        for (int attempt = 0;; ++attempt) {
            const auto name =
                folderOf(file) / ("." + file.filename().string() + "." +
                                  std::to_string(::getpid()) + "-" + std::to_string(attempt));
            auto made = make(name);
            if (made || made.error() != EEXIST || attempt == 99) {
                m_name = made ? name : std::filesystem::path();
                return made;
            }
        }
    }
    Called<void> become(const std::filesystem::path& file) { return m_files.rename(m_name, file); }
    void isGone() { m_name.clear(); }

private:
    FileSystem& m_files;
    std::filesystem::path m_name;
};

/// The rights the file has now; nothing where there is none.
Outcome<std::optional<mode_t>> rightsToKeep(const std::filesystem::path& file, FileSystem& files)
{
    const auto now = files.facts(file);
    if (!now) {
        return now.error() == ENOENT ? Outcome<std::optional<mode_t>>(std::nullopt)
                                     : writeFault(file, now.error());
    }
    if (now->kind != FileFacts::Kind::Plain) {
        return fail(Error::Kind::Unsupported,
                    file.string() +
                        " is not a plain file and cannot be replaced: name a file instead.");
    }
    return std::optional<mode_t>{now->rights};
}

Called<void> writeSynced(FileSystem& files, OpenFile& file, std::string_view bytes,
                         std::optional<mode_t> rights)
{
    return writeAll(files, file.descriptor(), bytes)
        .and_then(
            [&] { return rights ? files.setRights(file.descriptor(), *rights) : Called<void>(); })
        .and_then([&] { return files.sync(file.descriptor()); })
        .and_then([&] { return file.close(); });
}

/// Where a disk has no second names for a file (FAT), its bytes are written once more.
Called<void> copyBeside(FileSystem& files, const std::filesystem::path& document, NameBeside& name)
{
    const auto bytes = readWholeFile(document, files);
    if (!bytes) {
        return tl::unexpected(EIO);
    }
    auto copy = name.take(document, [&](const auto& free) {
        return openFile(files, free, O_WRONLY | O_CREAT | O_EXCL, ownersAlone);
    });
    return copy ? writeSynced(files, *copy, *bytes, std::nullopt) : tl::unexpected(copy.error());
}

/// The document stands under its own name all the while.
Called<void> keepGeneration(FileSystem& files, const std::filesystem::path& document)
{
    NameBeside second(files);
    auto kept = second.take(document, [&](const auto& free) { return files.link(document, free); });
    if (!kept && (kept.error() == EPERM || kept.error() == EOPNOTSUPP || kept.error() == ENOSYS ||
                  kept.error() == EMLINK)) {
        kept = copyBeside(files, document, second);
    }
    // Of two names of one file, rename removes neither: after a save that failed here the second
    // name is such a one, and goes with its owner.
    return kept.and_then([&] { return second.become(previousGenerationOf(document)); });
}

enum class Generations { OnlyNew, KeepOne };
/// A link in a folder that came from somebody else may lead anywhere: a record takes its place.
enum class Links { Follow, Replace };

Outcome<void> replace(const std::filesystem::path& file, std::string_view bytes, FileSystem& files,
                      Generations generations, mode_t rightsOfNew, Links links = Links::Follow)
{
    const auto target = links == Links::Follow ? followedLink(file) : file;
    ASSIGN_OR_RETURN(const auto rights, rightsToKeep(target, files));
    NameBeside name(files);
    auto beside = name.take(target, [&](const auto& free) {
        return openFile(files, free, O_WRONLY | O_CREAT | O_EXCL, rightsOfNew);
    });
    if (!beside) {
        return writeFault(file, beside.error());
    }
    const auto whole = writeSynced(files, *beside, bytes, rights)
                           .and_then([&] {
                               return rights && generations == Generations::KeepOne
                                          ? keepGeneration(files, target)
                                          : Called<void>();
                           })
                           .and_then([&] { return name.become(target); });
    if (!whole) {
        return writeFault(file, whole.error());
    }
    name.isGone();
    const auto synced = syncFolder(files, folderOf(target));
    return synced ? Outcome<void>() : writeFault(file, synced.error());
}

} // namespace

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

Outcome<std::string> readWholeFile(const std::filesystem::path& file, FileSystem& files)
{
    // Without O_NONBLOCK a pipe that nobody writes to would hang the program here.
    const auto opened = openFile(files, file, O_RDONLY | O_NONBLOCK);
    const auto now = opened ? files.facts(opened->descriptor()) : tl::unexpected(opened.error());
    if (!now) {
        return readFault(file, now.error());
    }
    if (now->kind != FileFacts::Kind::Plain) {
        return fail(Error::Kind::Unsupported, file.string() + (now->kind == FileFacts::Kind::Folder
                                                                   ? " is a folder, not a file."
                                                                   : " is not a plain file."));
    }
    if (now->size > largestFile) {
        return fail(Error::Kind::Unsupported,
                    "The file " + file.string() + " is larger than 256 MiB, too large to be ours.");
    }
    std::string bytes;
    bytes.reserve(static_cast<std::size_t>(now->size));
    std::array<char, 1 << 16> block{};
    while (true) {
        const auto got = files.read(opened->descriptor(), block.data(), block.size());
        if (!got && got.error() != EINTR) {
            return readFault(file, got.error());
        }
        if (got && *got == 0) {
            return bytes;
        }
        bytes.append(block.data(), got.value_or(0));
    }
}

Outcome<void> replaceFile(const std::filesystem::path& file, std::string_view bytes,
                          FileSystem& files)
{
    return replace(file, bytes, files, Generations::OnlyNew, asTheSystemSays);
}

Outcome<void> replaceDocument(const std::filesystem::path& file, std::string_view bytes,
                              FileSystem& files)
{
    return replace(file, bytes, files, Generations::KeepOne, ownersAlone);
}

Outcome<void> replaceRecord(const std::filesystem::path& file, std::string_view bytes,
                            FileSystem& files)
{
    return replace(file, bytes, files, Generations::OnlyNew, ownersAlone, Links::Replace);
}

std::filesystem::path previousGenerationOf(const std::filesystem::path& document)
{
    return folderOf(document) /
           (document.stem().string() + ".previous" + document.extension().string());
}

std::filesystem::path freeNameBeside(const std::filesystem::path& document, std::string_view why,
                                     FileSystem& files)
{
    for (int number = 1;; ++number) {
        auto name = folderOf(document) / (document.stem().string() + "." + std::string(why) + "-" +
                                          std::to_string(number) + document.extension().string());
        // A name that cannot be looked at cannot be written to either: that is told there.
        if (!files.facts(name)) {
            return name;
        }
    }
}

Outcome<void> makeFolders(const std::filesystem::path& folder, FileSystem& files)
{
    const auto now = files.facts(folder);
    if (now && now->kind == FileFacts::Kind::Folder) {
        return {};
    }
    if (folder.has_parent_path() && folder.parent_path() != folder) {
        RETURN_IF_ERROR(makeFolders(folder.parent_path(), files));
    }
    const auto made = files.makeFolder(folder, 0700);
    if (!made && made.error() != EEXIST) {
        return fail(Error::Kind::DiskFull, "The folder " + folder.string() +
                                               " could not be made: " + wordsOf(made.error()) +
                                               ".");
    }
    const auto synced = syncFolder(files, folderOf(folder));
    return synced ? Outcome<void>() : writeFault(folder, synced.error());
}

} // namespace latemile
