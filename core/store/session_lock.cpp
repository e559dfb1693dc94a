// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_lock.hpp"

#include "core/json_file.hpp"
#include "core/whole_file.hpp"

#include <fcntl.h>
#include <pwd.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <utility>

namespace latemile {

namespace {

std::string loginName()
{
    std::array<char, 4096> buffer{};
    passwd entry{};
    passwd* found = nullptr;
    if (::getpwuid_r(::getuid(), &entry, buffer.data(), buffer.size(), &found) == 0 && found) {
        return found->pw_name;
    }
    return "somebody";
}

std::string textOf(const LockOwner& owner)
{
    return jsonText(
        {{"owner", owner.name}, {"host", owner.host}, {"process", std::int64_t{::getpid()}}});
}

/// In the moment between taking a lock and naming its owner the file says nothing.
std::string holderIn(const std::filesystem::path& file, FileSystem& files)
{
    const auto text = readWholeFile(file, files);
    const auto document = text ? parseJson(*text, file.string()) : parseJson("{}", "");
    if (!document) {
        return "somebody else";
    }
    const JsonField field(*document, file.string());
    const auto name = field.text("owner");
    const auto host = field.text("host");
    return name && host ? wordsFor({*name, *host}) : "somebody else";
}

/// The file may have gone between opening and locking: then the lock is one of nothing.
bool isStill(FileSystem& files, const std::filesystem::path& file, const OpenFile& opened)
{
    const auto named = files.facts(file);
    const auto held = files.facts(opened.descriptor());
    return named && held && named->inode == held->inode;
}

} // namespace

LockOwner ownerHere(std::string coach)
{
    std::array<char, 256> host{};
    const bool known = ::gethostname(host.data(), host.size() - 1) == 0;
    return {coach.empty() ? loginName() : std::move(coach), known ? host.data() : "this machine"};
}

std::string wordsFor(const LockOwner& owner)
{
    return owner.name + " on " + owner.host;
}

SessionLock::SessionLock(std::filesystem::path file, OpenFile opened, FileSystem& files)
    : m_file(std::move(file)), m_files(&files), m_open(std::move(opened))
{
}

SessionLock::~SessionLock()
{
    // While the lock is held: whoever opened the file before finds it gone and opens a new one.
    if (m_open.descriptor() >= 0) {
        (void)m_files->remove(m_file);
    }
}

Outcome<SessionLock::Taking> SessionLock::take(const std::filesystem::path& folder,
                                               const LockOwner& owner, FileSystem& files)
{
    const auto file = folder / "session.lock";
    while (true) {
        auto opened = openFile(files, file, O_RDWR | O_CREAT, 0600);
        if (!opened) {
            return writeFault(file, opened.error());
        }
        const auto locked = files.lock(opened->descriptor());
        if (!locked && locked.error() == EWOULDBLOCK) {
            return Taking{std::nullopt, holderIn(file, files)};
        }
        if (!locked && locked.error() != EINTR) {
            return writeFault(file, locked.error());
        }
        if (!locked || !isStill(files, file, *opened)) {
            continue;
        }
        const auto named = files.truncate(opened->descriptor(), 0).and_then([&] {
            return writeAll(files, opened->descriptor(), textOf(owner));
        });
        // The lock holds without the name too, on a full disk for one.
        (void)named;
        return Taking{SessionLock(file, std::move(*opened), files), {}};
    }
}

} // namespace latemile
