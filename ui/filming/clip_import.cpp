// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/clip_import.hpp"

#include "core/clip/clip_reader.hpp"
#include "core/files/file_system.hpp"
#include "core/store/clip_sums.hpp"
#include "core/store/linked_film.hpp"
#include "core/whole_file.hpp"
#include "ui/text/words.hpp"

#include <fcntl.h>

#include <fstream>
#include <memory>
#include <utility>
#include <vector>

namespace latemile::ui {
namespace {

constexpr std::size_t pieceBytes = std::size_t{4} << 20;

/// A name of its own in `folder`: "run.mp4", then "run-2.mp4".
std::filesystem::path freeName(const std::filesystem::path& folder,
                               const std::filesystem::path& file)
{
    // A link whose film is not there just now has its name all the same.
    const auto isTaken = [](const std::filesystem::path& name) {
        std::error_code ignored;
        return std::filesystem::symlink_status(name, ignored).type() !=
               std::filesystem::file_type::not_found;
    };
    auto wanted = folder / file.filename();
    for (int n = 2; isTaken(wanted); ++n) {
        wanted =
            folder / (file.stem().string() + "-" + std::to_string(n) + file.extension().string());
    }
    return wanted;
}

bool isThere(const std::filesystem::path& folder, const std::filesystem::path& file)
{
    const auto there = folder / file.filename();
    std::error_code ignored;
    return std::filesystem::equivalent(there, file, ignored);
}

} // namespace

ClipImport::ClipImport(std::filesystem::path sessionFolder, QObject* parent)
    : QObject(parent), m_folder(std::move(sessionFolder))
{
}

ClipImport::~ClipImport()
{
    m_cancelled = true;
}

void ClipImport::add(const std::filesystem::path& file, How how)
{
    m_cancelled = false;
    ++m_left;
    m_worker.post([this, file, how] {
        auto result = std::make_shared<Outcome<std::string>>(bring(file, how));
        QMetaObject::invokeMethod(
            this,
            [this, result] {
                --m_left;
                if (*result) {
                    emit copied(fromUtf8(**result));
                } else {
                    emit failed(fromUtf8(result->error().sentence));
                }
                if (m_left == 0) {
                    emit done();
                }
            },
            Qt::QueuedConnection);
    });
}

void ClipImport::cancel()
{
    m_cancelled = true;
}

Outcome<void> ClipImport::checkVideo(const std::filesystem::path& file) const
{
    ClipOptions options;
    options.goOn = [this](double) { return !m_cancelled; };
    ASSIGN_OR_RETURN(const auto reader, ClipReader::open(file, options));
    (void)reader;
    return {};
}

Outcome<std::string> ClipImport::bring(const std::filesystem::path& from, How how)
{
    const auto folder = m_folder / "clips";
    RETURN_IF_ERROR(makeFolders(folder));
    if (isThere(folder, from)) {
        return "clips/" + from.filename().string();
    }
    RETURN_IF_ERROR(checkVideo(from));
    const auto target = freeName(folder, from);
    RETURN_IF_ERROR(how == How::Link ? linkFilm(from, target) : copy(from, target));
    // A clip whose sum could not be written down is none the worse: it is only not checked later.
    (void)recordClipSum(target);
    return "clips/" + target.filename().string();
}

Outcome<void> ClipImport::copy(const std::filesystem::path& from,
                               const std::filesystem::path& target)
{
    const std::string name = from.filename().string();
    std::error_code fault;
    std::ifstream source(from, std::ios::binary);
    const auto size = std::filesystem::file_size(from, fault);
    if (!source || fault) {
        return fail(Error::Kind::NotFound,
                    "The file " + name + " cannot be read: is it still there?");
    }
    const auto part = std::filesystem::path(target.string() + ".part");
    std::ofstream sink(part, std::ios::binary);
    std::vector<char> piece(pieceBytes);
    std::uintmax_t written = 0;
    while (sink && source && written < size && !m_cancelled) {
        source.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        sink.write(piece.data(), source.gcount());
        written += static_cast<std::uintmax_t>(source.gcount());
        const int percent = static_cast<int>(100 * written / size);
        QMetaObject::invokeMethod(
            this, [this, name, percent] { emit progress(fromUtf8(name), percent); },
            Qt::QueuedConnection);
    }
    sink.close();
    if (m_cancelled || !sink || written != size) {
        std::filesystem::remove(part, fault);
        return m_cancelled
                   ? fail(Error::Kind::Cancelled, "Copying " + name + " was stopped.")
                   : fail(Error::Kind::DiskFull,
                          "The file " + name + " could not be copied whole: is the disk full?");
    }
    // The session must not name a clip that a power cut takes away again.
    const auto synced = openFile(disk(), part, O_RDONLY).and_then([](const OpenFile& file) {
        constexpr mode_t ownersAlone = 0600;
        return disk().setRights(file.descriptor(), ownersAlone).and_then([&file] {
            return disk().sync(file.descriptor());
        });
    });
    std::filesystem::rename(part, target, fault);
    if (fault || !synced || !syncFolder(disk(), folderOf(target))) {
        return fail(Error::Kind::DiskFull,
                    "The file " + name + " could not be put into the session.", fault.message());
    }
    return {};
}

} // namespace latemile::ui
