// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/hand_over.hpp"

#include "core/csv_cells.hpp"
#include "core/files/checksum.hpp"
#include "core/files/file_system.hpp"
#include "core/files/new_file.hpp"
#include "core/store/archive_owners.hpp"
#include "core/store/clip_sums.hpp"
#include "core/store/linked_film.hpp"
#include "core/store/session.hpp"
#include "core/store/session_locks.hpp"
#include "core/store/utf8_names.hpp"
#include "core/whole_file.hpp"

#include <fcntl.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <system_error>
#include <vector>

namespace latemile {

namespace {

constexpr mode_t ownersAlone = 0600;

struct Item {
    std::filesystem::path file;
    std::string name; ///< in the zip
    std::int64_t size{};
};

bool isClip(const std::filesystem::path& file)
{
    return file.parent_path().filename() == "clips";
}

/// Of a link: whether a session names it as its clip. Other links stand for files that nobody meant
/// to give away.
bool isNamed(const std::filesystem::path& link)
{
    const auto session = readSession(link.parent_path().parent_path());
    const auto name = "clips/" + link.filename().string();
    return isClip(link) && session &&
           std::ranges::find(session->clips, name, &SessionClip::file) != session->clips.end();
}

/// That the film of a linked clip is there, and the one that came in.
Outcome<void> needFilm(const std::filesystem::path& link)
{
    if (const auto lost = lostFilmSentence(link); !lost.empty()) {
        return fail(Error::Kind::NotFound, link.string() + ": " + lost);
    }
    ASSIGN_OR_RETURN(const auto sums, readClipSums(link.parent_path()));
    ASSIGN_OR_RETURN(const auto now, sha256OfFile(link));
    const auto known = sums.find(link.filename().string());
    if (known == sums.end() || known->second != now) {
        return fail(Error::Kind::Inconsistent,
                    link.string() + " is a link to a file that is not the film that came in: find "
                                    "the film, or take the clip out of the session.");
    }
    return {};
}

/// Locks are this machine's.
bool isLeftOut(const std::filesystem::directory_entry& entry)
{
    std::error_code ignored;
    return !entry.is_regular_file(ignored) || entry.path().extension() == ".lock";
}

/// Plain files below the folder, whatever they are.
Outcome<std::vector<Item>> itemsOf(const std::filesystem::path& folder)
{
    std::vector<Item> items;
    std::error_code fault;
    const auto above = folder.parent_path();
    for (std::filesystem::recursive_directory_iterator at(folder, fault), end; !fault && at != end;
         at.increment(fault)) {
        if (std::error_code ignored; at->is_symlink(ignored)) {
            if (!isNamed(at->path())) {
                continue;
            }
            RETURN_IF_ERROR(needFilm(at->path()));
        }
        if (isLeftOut(*at)) {
            continue;
        }
        if (firstBadByte(at->path().native())) {
            return fail(Error::Kind::Unsupported,
                        "A file in " + at->path().parent_path().string() +
                            " has a name that is not UTF-8, which no zip file can hold: rename the "
                            "one that shows strange signs.");
        }
        // Of a linked clip the film itself.
        items.push_back({std::filesystem::canonical(at->path(), fault),
                         at->path().lexically_relative(above).generic_string(),
                         static_cast<std::int64_t>(at->file_size(fault))});
    }
    if (fault) {
        return readFault(folder, fault.value());
    }
    return items;
}

/// A zip being written into a descriptor.
class Zip {
public:
    Zip(int descriptor, std::filesystem::path file)
        : m_archive(archive_write_new()), m_file(std::move(file))
    {
        archive_write_set_format_zip(m_archive.get());
        archive_write_set_options(m_archive.get(), "zip:hdrcharset=UTF-8");
        m_state = archive_write_open_fd(m_archive.get(), descriptor);
    }

    Outcome<void> begin(const Item& item)
    {
        // Film is packed already; trying again takes long and gives nothing.
        const bool film = item.size > (std::int64_t{4} << 20);
        film ? archive_write_zip_set_compression_store(m_archive.get())
             : archive_write_zip_set_compression_deflate(m_archive.get());
        const ArchiveEntry entry(archive_entry_new());
        archive_entry_set_pathname_utf8(entry.get(), item.name.c_str());
        archive_entry_set_filetype(entry.get(), AE_IFREG);
        archive_entry_set_perm(entry.get(), ownersAlone);
        archive_entry_set_size(entry.get(), item.size);
        m_state = archive_write_header(m_archive.get(), entry.get());
        return held();
    }

    Outcome<void> add(std::string_view bytes)
    {
        const auto written = archive_write_data(m_archive.get(), bytes.data(), bytes.size());
        m_state = written == static_cast<la_ssize_t>(bytes.size()) ? ARCHIVE_OK : ARCHIVE_FATAL;
        return held();
    }

    Outcome<void> close()
    {
        m_state = archive_write_close(m_archive.get());
        return held();
    }

private:
    Outcome<void> held() const
    {
        if (m_state == ARCHIVE_OK) {
            return {};
        }
        const int code = archive_errno(m_archive.get());
        return writeFault(m_file, code > 0 ? code : EIO);
    }

    ArchiveWriter m_archive;
    std::filesystem::path m_file;
    int m_state{};
};

/// How far the work is, by bytes.
class Share {
public:
    Share(const std::vector<Item>& items, const GoOn& goOn) : m_goOn(goOn)
    {
        for (const auto& item : items) {
            m_all += item.size;
        }
    }
    Outcome<void> took(std::size_t bytes)
    {
        m_done += static_cast<std::int64_t>(bytes);
        if (m_goOn && !m_goOn(static_cast<double>(m_done) / static_cast<double>(m_all + 1))) {
            return fail(Error::Kind::Cancelled, "Stopped: nothing was written.");
        }
        return {};
    }

private:
    const GoOn& m_goOn;
    std::int64_t m_all{};
    std::int64_t m_done{};
};

Outcome<void> addFile(Zip& zip, const Item& item, Share& share)
{
    const auto file = openFile(disk(), item.file, O_RDONLY | O_NOFOLLOW);
    if (!file) {
        return readFault(item.file, file.error());
    }
    RETURN_IF_ERROR(zip.begin(item));
    std::vector<char> part(std::size_t{1} << 20);
    for (std::int64_t left = item.size; left > 0;) {
        const auto most = std::min(static_cast<std::int64_t>(part.size()), left);
        const auto got =
            disk().read(file->descriptor(), part.data(), static_cast<std::size_t>(most));
        if (!got || *got == 0) {
            return readFault(item.file, got ? EIO : got.error());
        }
        RETURN_IF_ERROR(zip.add({part.data(), *got}));
        RETURN_IF_ERROR(share.took(*got));
        left -= static_cast<std::int64_t>(*got);
    }
    return {};
}

Outcome<void> writeZip(int descriptor, const std::filesystem::path& file,
                       const std::vector<Item>& items, const GoOn& goOn)
{
    const Utf8Names names;
    Zip zip(descriptor, file);
    Share share(items, goOn);
    for (const auto& item : items) {
        RETURN_IF_ERROR(addFile(zip, item, share));
    }
    return zip.close();
}

} // namespace

Outcome<void> handOver(const std::filesystem::path& athleteFolder, const std::filesystem::path& zip,
                       const GoOn& goOn)
{
    std::error_code ignored;
    const auto folder = std::filesystem::weakly_canonical(athleteFolder, ignored);
    if (!std::filesystem::is_regular_file(folder / "athlete.json", ignored)) {
        return fail(Error::Kind::NotFound,
                    "The folder " + athleteFolder.string() +
                        " is no athlete's own: name the one that holds athlete.json.");
    }
    ASSIGN_OR_RETURN(const auto locks, takeAllSessions(folder));
    ASSIGN_OR_RETURN(const auto items, itemsOf(folder));
    ASSIGN_OR_RETURN(auto file, NewFile::begin(zip));
    RETURN_IF_ERROR(writeZip(file.descriptor(), zip, items, goOn));
    return file.settle();
}

} // namespace latemile
