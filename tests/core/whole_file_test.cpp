// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/whole_file.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

using namespace latemile;
using tests::bytesOf;
using tests::ScratchFolder;

namespace {

/// Runs `work` in a process of its own and gives its exit status: limits and users set there do not
/// reach the test program.
template <class Work>
int inOwnProcess(Work work)
{
    const pid_t child = ::fork();
    if (child == 0) {
        ::_exit(work());
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

} // namespace

TEST_CASE("a file is read back byte for byte", "[whole_file]")
{
    const ScratchFolder folder;
    std::string bytes(200'000, '\0');
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        bytes[i] = static_cast<char>(i * 31 + i / 256);
    }
    CHECK(readWholeFile(folder.file("some.bin", bytes)).value() == bytes);
    CHECK(readWholeFile(folder.file("empty.bin", "")).value().empty());
}

TEST_CASE("what is no plain file is refused by name", "[whole_file]")
{
    const ScratchFolder folder;
    SECTION("missing")
    {
        const auto read = readWholeFile(folder / "none.json");
        REQUIRE_FALSE(read);
        CHECK(read.error().kind == Error::Kind::NotFound);
        CHECK(read.error().sentence == "There is no file " + (folder / "none.json").string() + ".");
    }
    SECTION("a folder")
    {
        const auto read = readWholeFile(folder.path());
        REQUIRE_FALSE(read);
        CHECK(read.error().sentence == folder.path().string() + " is a folder, not a file.");
        const auto written = replaceFile(folder.path(), "text");
        REQUIRE_FALSE(written);
        CHECK(written.error().sentence.find(folder.path().string()) != std::string::npos);
    }
    SECTION("a pipe nobody writes to, without waiting")
    {
        const auto pipe = folder / "pipe";
        REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
        CHECK_FALSE(readWholeFile(pipe));
    }
    SECTION("a device")
    {
        CHECK_FALSE(readWholeFile("/dev/zero"));
        CHECK_FALSE(replaceFile("/dev/full", "text"));
    }
    SECTION("larger than 256 MiB, without reading it")
    {
        const auto large = folder.file("large.json", "");
        std::filesystem::resize_file(large, (std::uintmax_t{256} << 20) + 1);
        const auto read = readWholeFile(large);
        REQUIRE_FALSE(read);
        CHECK(read.error().sentence.find("256 MiB") != std::string::npos);
    }
}

TEST_CASE("replacing leaves the new content alone in the folder", "[whole_file]")
{
    const ScratchFolder folder;
    const auto file = folder.file("session.json", "old");
    REQUIRE(::chmod(file.c_str(), 0640) == 0);
    REQUIRE(replaceFile(file, "new content"));
    CHECK(bytesOf(file) == "new content");
    CHECK(folder.entries() == 1);
    struct stat now {};
    REQUIRE(::stat(file.c_str(), &now) == 0);
    CHECK((now.st_mode & 07777U) == 0640U);

    REQUIRE(replaceFile(folder / "another.json", ""));
    CHECK(bytesOf(folder / "another.json").empty());
    CHECK(folder.entries() == 2);
}

TEST_CASE("a link goes on pointing at the replaced file", "[whole_file]")
{
    const ScratchFolder folder;
    const auto file = folder.file("real/session.json", "old");
    const auto link = folder / "session.json";
    std::filesystem::create_symlink(file, link);
    REQUIRE(replaceFile(link, "new"));
    CHECK(std::filesystem::is_symlink(link));
    CHECK(bytesOf(file) == "new");
}

TEST_CASE("a folder that is not there is an error that names the file", "[whole_file]")
{
    const ScratchFolder folder;
    const auto file = folder / "none" / "out.json";
    const auto written = replaceFile(file, "text");
    REQUIRE_FALSE(written);
    CHECK(written.error().sentence.find(file.string()) != std::string::npos);
    CHECK(folder.entries() == 0);
}

TEST_CASE("a folder that may not be written to keeps the old file", "[whole_file]")
{
    const ScratchFolder folder;
    const auto file = folder.file("session.json", "old");
    std::filesystem::permissions(folder.path(), std::filesystem::perms{0555});
    // The owner of the machine may write everywhere: be somebody else for a moment.
    const int status = inOwnProcess([&] {
        if (::geteuid() == 0 && ::seteuid(65534) != 0) {
            return 2;
        }
        return replaceFile(file, "new") ? 1 : 0;
    });
    std::filesystem::permissions(folder.path(), std::filesystem::perms{0755});
    CHECK(status == 0);
    CHECK(bytesOf(file) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a write that stops half-way keeps the old file and leaves no stump", "[whole_file]")
{
    const ScratchFolder folder;
    const auto file = folder.file("session.json", "old");
    // A limit on the size of files ends the write as a full disk does: short, then with an error.
    const int status = inOwnProcess([&] {
        ::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{1000, 1000};
        if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) {
            return 2;
        }
        const auto written = replaceFile(file, std::string(5000, 'x'));
        return !written && written.error().kind == Error::Kind::DiskFull ? 0 : 1;
    });
    CHECK(status == 0);
    CHECK(bytesOf(file) == "old");
    CHECK(folder.entries() == 1);
}
