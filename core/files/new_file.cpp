// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/new_file.hpp"

#include "core/whole_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <string>
#include <utility>

namespace latemile {

namespace {

constexpr mode_t ownersAlone = 0600;
constexpr int mostAttempts = 100;

/// The process number keeps two programs apart, the other number two files of one.
std::filesystem::path nameBeside(const std::filesystem::path& file, int attempt)
{
    return folderOf(file) / ("." + file.filename().string() + "." + std::to_string(::getpid()) +
                             "-" + std::to_string(attempt) + ".part");
}

} // namespace

struct NewFile::Inside {
    std::filesystem::path file;
    std::filesystem::path beside;
    OpenFile open;
    bool settled{};

    ~Inside()
    {
        if (!settled) {
            (void)disk().remove(beside);
        }
    }
};

NewFile::NewFile(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
NewFile::NewFile(NewFile&&) noexcept = default;
NewFile& NewFile::operator=(NewFile&&) noexcept = default;
NewFile::~NewFile() = default;

Outcome<NewFile> NewFile::begin(const std::filesystem::path& file)
{
    int fault = EEXIST;
    for (int attempt = 0; fault == EEXIST && attempt < mostAttempts; ++attempt) {
        auto beside = nameBeside(file, attempt);
        auto opened = openFile(disk(), beside, O_WRONLY | O_CREAT | O_EXCL, ownersAlone);
        if (opened) {
            return NewFile(
                std::unique_ptr<Inside>(new Inside{file, std::move(beside), std::move(*opened)}));
        }
        fault = opened.error();
    }
    return writeFault(file, fault);
}

int NewFile::descriptor() const
{
    return m_inside->open.descriptor();
}

Outcome<void> NewFile::settle()
{
    auto& in = *m_inside;
    const auto named = disk()
                           .sync(in.open.descriptor())
                           .and_then([&in] { return in.open.close(); })
                           .and_then([&in] { return disk().rename(in.beside, in.file); });
    if (!named) {
        return writeFault(in.file, named.error());
    }
    in.settled = true;
    const auto lasting = syncFolder(disk(), folderOf(in.file));
    return lasting ? Outcome<void>() : writeFault(in.file, lasting.error());
}

} // namespace latemile
