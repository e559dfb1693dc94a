// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_system.hpp"
#include "core/store/archive_owners.hpp"
#include "core/store/hand_over.hpp"
#include "core/store/library_check.hpp"
#include "core/store/utf8_names.hpp"
#include "core/whole_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

namespace latemile {

namespace {

constexpr mode_t ownersAlone = 0600;
constexpr int mostEntries = 100'000;

/// A folder that goes again with its owner, unless it was kept.
class PassingFolder {
public:
    explicit PassingFolder(std::filesystem::path path) : m_path(std::move(path)) {}
    PassingFolder(const PassingFolder&) = delete;
    PassingFolder& operator=(const PassingFolder&) = delete;
    ~PassingFolder()
    {
        std::error_code ignored;
        std::filesystem::remove_all(m_path, ignored);
    }
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

private:
    std::filesystem::path m_path;
};

/// Reads one zip entry by entry and knows what must not be believed of it.
class Unpacking {
public:
    Unpacking(std::filesystem::path zip, std::filesystem::path into, const GoOn& goOn)
        : m_zip(std::move(zip)), m_into(std::move(into)), m_goOn(goOn),
          m_archive(archive_read_new())
    {
        archive_read_support_format_zip(m_archive.get());
        archive_read_set_options(m_archive.get(), "hdrcharset=UTF-8");
    }

    Outcome<void> open(int descriptor, std::int64_t size)
    {
        m_size = size;
        constexpr std::size_t part = std::size_t{1} << 20;
        return archive_read_open_fd(m_archive.get(), descriptor, part) == ARCHIVE_OK
                   ? Outcome<void>()
                   : refuse("is no zip file that can be read");
    }

    /// Every entry; the folder all of them lie in.
    Outcome<std::string> all()
    {
        archive_entry* entry = nullptr;
        for (int count = 0;; ++count) {
            const int state = archive_read_next_header(m_archive.get(), &entry);
            if (state == ARCHIVE_EOF) {
                break;
            }
            if (state != ARCHIVE_OK && state != ARCHIVE_WARN) {
                return refuse("is damaged, or no zip file");
            }
            if (count == mostEntries) {
                return refuse("holds more files than any athlete's record");
            }
            RETURN_IF_ERROR(take(entry));
        }
        return m_top.empty() ? refuse("holds no athlete's record") : Outcome<std::string>(m_top);
    }

private:
    tl::unexpected<Error> refuse(const std::string& why) const
    {
        return fail(Error::Kind::Damaged, "The file " + m_zip.filename().string() + " " + why +
                                              ": nothing was taken in.");
    }

    /// The place of an entry below one folder, or why it must not be written.
    Outcome<std::filesystem::path> placeOf(archive_entry* entry)
    {
        const char* text = archive_entry_pathname_utf8(entry);
        if (text == nullptr) {
            return refuse("holds a name that is not UTF-8");
        }
        const std::filesystem::path name(text);
        const auto leadsOut = [](const std::filesystem::path& part) {
            return part == ".." || part == ".";
        };
        if (name.empty() || name.is_absolute() || std::ranges::any_of(name, leadsOut) ||
            std::string_view(text).find('\\') != std::string_view::npos) {
            return refuse("holds a name that leads out of its folder, " + name.string());
        }
        const auto top = name.begin()->string();
        if (top.starts_with('.') || (!m_top.empty() && top != m_top)) {
            return refuse("holds more than one athlete's folder");
        }
        m_top = top;
        return m_into / name;
    }

    Outcome<void> take(archive_entry* entry)
    {
        ASSIGN_OR_RETURN(const auto place, placeOf(entry));
        if (archive_entry_hardlink(entry) != nullptr || archive_entry_symlink(entry) != nullptr) {
            return refuse("holds a link, which could lead anywhere");
        }
        if (archive_entry_filetype(entry) == AE_IFDIR) {
            return makeFolders(place);
        }
        if (archive_entry_filetype(entry) != AE_IFREG) {
            return refuse("holds something that is neither file nor folder");
        }
        RETURN_IF_ERROR(makeFolders(place.parent_path()));
        return write(place);
    }

    Outcome<void> write(const std::filesystem::path& place)
    {
        auto file = openFile(disk(), place, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW, ownersAlone);
        if (!file) {
            return file.error() == EEXIST ? refuse("holds two files of one name")
                                          : writeFault(place, file.error());
        }
        const void* bytes = nullptr;
        std::size_t count = 0;
        la_int64_t at = 0;
        for (;;) {
            const int state = archive_read_data_block(m_archive.get(), &bytes, &count, &at);
            if (state == ARCHIVE_EOF) {
                break;
            }
            if (state != ARCHIVE_OK) {
                return refuse("is damaged at " + place.filename().string());
            }
            RETURN_IF_ERROR(grew(count));
            const auto done =
                writeAll(disk(), file->descriptor(), {static_cast<const char*>(bytes), count});
            if (!done) {
                return writeFault(place, done.error());
            }
        }
        const auto lasting =
            disk().sync(file->descriptor()).and_then([&] { return file->close(); });
        return lasting ? Outcome<void>() : writeFault(place, lasting.error());
    }

    /// A small zip that unpacks to a full disk is no record.
    Outcome<void> grew(std::size_t bytes)
    {
        constexpr std::int64_t always = std::int64_t{64} << 20;
        constexpr std::int64_t times = 20;
        m_written += static_cast<std::int64_t>(bytes);
        if (m_written > always + times * m_size) {
            return refuse("would unpack to a size out of all proportion");
        }
        if (m_goOn && !m_goOn(std::min(1.0, static_cast<double>(m_written) /
                                                static_cast<double>(m_size + 1)))) {
            return fail(Error::Kind::Cancelled, "Stopped: nothing was taken in.");
        }
        return {};
    }

    std::filesystem::path m_zip;
    std::filesystem::path m_into;
    const GoOn& m_goOn;
    ArchiveReader m_archive;
    std::string m_top;
    std::int64_t m_size{};
    std::int64_t m_written{};
};

Outcome<std::string> unpacked(const std::filesystem::path& zip, const std::filesystem::path& into,
                              const GoOn& goOn)
{
    const auto file = openFile(disk(), zip, O_RDONLY);
    if (!file) {
        return readFault(zip, file.error());
    }
    const auto facts = disk().facts(file->descriptor());
    if (!facts || facts->kind != FileFacts::Kind::Plain) {
        return fail(Error::Kind::Unsupported,
                    zip.string() + " is not a plain file: name the zip file of a record.");
    }
    const Utf8Names names;
    Unpacking unpacking(zip, into, goOn);
    RETURN_IF_ERROR(unpacking.open(file->descriptor(), facts->size));
    return unpacking.all();
}

/// A record that is not whole must not stand in a library as if it were.
Outcome<void> needSound(const std::filesystem::path& zip, const std::filesystem::path& library,
                        const std::string& athlete)
{
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(library / athlete / "athlete.json", ignored)) {
        return fail(Error::Kind::Damaged, "The file " + zip.filename().string() +
                                              " holds no athlete.json, so no athlete's record: "
                                              "nothing was taken in.");
    }
    ASSIGN_OR_RETURN(const auto check, checkLibrary(library, {}));
    const auto bad = std::ranges::find(check.findings, Finding::State::Bad, &Finding::state);
    if (bad != check.findings.end()) {
        return fail(Error::Kind::Damaged, "The record in " + zip.filename().string() +
                                              " is not whole, nothing was taken in: " +
                                              bad->file.string() + ": " + bad->sentence);
    }
    return {};
}

} // namespace

Outcome<std::filesystem::path> takeIn(const std::filesystem::path& zip,
                                      const std::filesystem::path& library, const GoOn& goOn)
{
    RETURN_IF_ERROR(makeFolders(library));
    const PassingFolder passing(library / (".taking-in-" + std::to_string(::getpid())));
    RETURN_IF_ERROR(makeFolders(passing.path()));
    ASSIGN_OR_RETURN(const auto athlete, unpacked(zip, passing.path(), goOn));
    const auto place = library / athlete;
    if (disk().facts(place)) {
        return fail(Error::Kind::Inconsistent,
                    "The library has a folder " + athlete +
                        " already: nothing was taken in. Rename or remove that one first.");
    }
    RETURN_IF_ERROR(needSound(zip, passing.path(), athlete));
    const auto moved = disk().rename(passing.path() / athlete, place).and_then([&] {
        return syncFolder(disk(), library);
    });
    if (!moved) {
        return writeFault(place, moved.error());
    }
    return place;
}

} // namespace latemile
