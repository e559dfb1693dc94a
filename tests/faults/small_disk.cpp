// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/faults/small_disk.hpp"

#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/statvfs.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>

namespace latemile::tests {

namespace {

namespace fs = std::filesystem;

/// In a child alone: the mount is seen by nobody else.
bool mountDisk(const fs::path& folder)
{
    return ::unshare(CLONE_NEWNS) == 0 &&
           ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
           ::mount("tmpfs", folder.c_str(), "tmpfs", 0, "size=64m") == 0;
}

/// Takes all room but so much.
bool leaveRoom(const fs::path& folder, std::size_t pages)
{
    struct statvfs now {};
    if (::statvfs(folder.c_str(), &now) != 0) {
        return false;
    }
    // A size of nothing at all means no limit.
    const auto used = std::max<std::size_t>(1, now.f_blocks - now.f_bfree);
    const auto size = "size=" + std::to_string((used + pages) * pageBytes);
    return ::mount(nullptr, folder.c_str(), nullptr, MS_REMOUNT, size.c_str()) == 0;
}

bool limitFiles(std::size_t pages)
{
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{pages * pageBytes, pages * pageBytes};
    return ::setrlimit(RLIMIT_FSIZE, &limit) == 0;
}

Written seenIn(const fs::path& folder, const std::string& name, std::optional<std::string> refusal)
{
    Written seen{std::move(refusal), std::nullopt, {}};
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const auto at = entry.path().lexically_relative(folder).string();
        if (entry.is_directory()) {
            continue;
        }
        if (at == name) {
            seen.bytes = bytesOf(entry.path());
        } else {
            seen.others.push_back(at);
        }
    }
    return seen;
}

/// Binary, since files are no text; a value that is missing is null.
std::string packed(const Written& seen)
{
    using nlohmann::json;
    const auto orNull = [](const std::optional<std::string>& bytes) {
        return bytes ? json::binary({bytes->begin(), bytes->end()}) : json();
    };
    const auto all = json::to_cbor({orNull(seen.refusal), orNull(seen.bytes), json(seen.others)});
    return {all.begin(), all.end()};
}

std::optional<Written> unpacked(const std::string& bytes)
{
    const auto all = nlohmann::json::from_cbor(bytes, true, false);
    if (!all.is_array() || all.size() != 3) {
        return std::nullopt;
    }
    const auto orNothing = [](const nlohmann::json& value) {
        return value.is_binary() ? std::optional(std::string(value.get_binary().begin(),
                                                             value.get_binary().end()))
                                 : std::nullopt;
    };
    return Written{orNothing(all[0]), orNothing(all[1]), all[2].get<std::vector<std::string>>()};
}

void workInChild(const fs::path& folder, std::size_t pages, const FileWork& work, int answer)
{
    const bool real = mountDisk(folder);
    if (work.old) {
        fs::create_directories((folder / work.name).parent_path());
        std::ofstream(folder / work.name, std::ios::binary) << *work.old;
    }
    if (!(real ? leaveRoom(folder, pages) : limitFiles(pages))) {
        return;
    }
    const auto refusal = work.write(folder);
    const auto bytes = packed(seenIn(folder, work.name, refusal));
    for (std::size_t at = 0; at < bytes.size();) {
        const auto took = ::write(answer, bytes.data() + at, bytes.size() - at);
        if (took <= 0) {
            return;
        }
        at += static_cast<std::size_t>(took);
    }
}

} // namespace

bool disksCanBeMounted()
{
    const ScratchFolder folder;
    const pid_t child = ::fork();
    if (child == 0) {
        ::_exit(mountDisk(folder.path()) ? 0 : 1);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

std::optional<Written> writtenWithin(std::size_t pages, const FileWork& work)
{
    const ScratchFolder folder;
    fs::create_directories(folder / "disk");
    std::array<int, 2> ends{};
    if (::pipe(ends.data()) != 0) {
        return std::nullopt;
    }
    const pid_t child = ::fork();
    if (child == 0) {
        ::close(ends[0]);
        workInChild(folder / "disk", pages, work, ends[1]);
        ::_exit(0);
    }
    ::close(ends[1]);
    std::string bytes;
    std::array<char, 1 << 16> block{};
    for (ssize_t got = 0; (got = ::read(ends[0], block.data(), block.size())) > 0;) {
        bytes.append(block.data(), static_cast<std::size_t>(got));
    }
    ::close(ends[0]);
    ::waitpid(child, nullptr, 0);
    return unpacked(bytes);
}

} // namespace latemile::tests
