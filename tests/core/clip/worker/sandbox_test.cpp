// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"
#include "core/clip/worker/sandbox.hpp"

#include "tests/catch.hpp"
#include "tests/core/clip/fixtures.hpp"
#include "tests/core/clip/worker/worker_processes.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <functional>
#include <thread>

#include <fcntl.h>
#include <netinet/in.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/ptrace.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace latemile;
using namespace latemile::test;

namespace {

constexpr int worked = 0;
constexpr int neverRun = -1;

/// 0, or the reason for which the kernel refused.
int codeOf(long result)
{
    return result < 0 ? errno : worked;
}

using Attempt = std::function<int()>;

// A sanitizer of ours needs write() itself, so that it cannot be refused there.
#ifdef __SANITIZE_ADDRESS__
constexpr bool isSanitized = true;
#else
constexpr bool isSanitized = false;
#endif

/// What each attempt came to in a child of this process that first gave up its rights by `confine`.
template <std::size_t Count>
std::array<int, Count> triedConfined(const std::function<bool()>& confine,
                                     const std::array<Attempt, Count>& attempts)
{
    auto* shared = static_cast<int*>(::mmap(nullptr, sizeof(int) * Count, PROT_READ | PROT_WRITE,
                                            MAP_SHARED | MAP_ANONYMOUS, -1, 0));
    REQUIRE(shared != MAP_FAILED);
    std::fill_n(shared, Count, neverRun);
    const pid_t child = ::fork();
    if (child == 0) {
        if (!confine()) {
            ::_exit(1);
        }
        for (std::size_t i = 0; i < Count; ++i) {
            shared[i] = attempts[i]();
        }
        ::_exit(0);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    std::array<int, Count> came{};
    std::copy_n(shared, Count, came.begin());
    ::munmap(shared, sizeof(int) * Count);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    return came;
}

int executed()
{
    const char* const words[] = {"/bin/true", nullptr};
    return codeOf(::execve(words[0], const_cast<char* const*>(words), nullptr));
}

int limited()
{
    const rlimit more{64, 64};
    return codeOf(::setrlimit(RLIMIT_NOFILE, &more));
}

int mappedToRun()
{
    auto* memory = ::mmap(nullptr, 4096, PROT_READ | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return memory == MAP_FAILED ? errno : worked;
}

int madeToRun()
{
    auto* memory =
        ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return codeOf(::mprotect(memory, 4096, PROT_READ | PROT_EXEC));
}

int threadRan()
{
    int ran = neverRun;
    std::thread([&ran] { ran = worked; }).join();
    return ran;
}

} // namespace

TEST_CASE("a confined worker can open, make, run, reach and watch nothing", "[worker][sandbox]")
{
    const auto clip = made("worker_single.mp4", movingPicture(1) + "-pix_fmt yuv420p -c:v libx264");
    const auto name = clip.string();
    const int opened = ::open(name.c_str(), O_RDONLY | O_CLOEXEC);
    std::array<char, 16> bytes{};
    const std::array<Attempt, 20> refused{
        [] { return codeOf(::open("/etc/passwd", O_RDONLY)); },
        [&] { return codeOf(::open(name.c_str(), O_RDONLY)); },
        [] { return codeOf(::open("/tmp/latemile-worker-was-here", O_WRONLY | O_CREAT, 0600)); },
        [] { return codeOf(::open("/proc/self/maps", O_RDONLY)); },
        [] { return codeOf(::unlink("/tmp/latemile-worker-was-here")); },
        [] { return codeOf(::socket(AF_INET, SOCK_STREAM, 0)); },
        [] { return codeOf(::socket(AF_UNIX, SOCK_STREAM, 0)); },
        executed,
        [] { return codeOf(::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr)); },
        [] { return codeOf(::ptrace(PTRACE_ATTACH, ::getppid(), nullptr, nullptr)); },
        [] { return codeOf(::fork()); },
        [] { return codeOf(::kill(1, 0)); },
        [] { return isSanitized ? EPERM : codeOf(::write(STDOUT_FILENO, "x", 1)); },
        [] { return codeOf(::shutdown(0, SHUT_RD)); },
        [] { return codeOf(::memfd_create("code", 0)); },
        [] { return codeOf(::prctl(PR_SET_DUMPABLE, 1)); },
        limited,
        mappedToRun,
        madeToRun,
        [&] { return codeOf(::ioctl(opened, 0, nullptr)); },
    };
    for (const int code : triedConfined([] { return !enterSandbox(); }, refused)) {
        CHECK(code == EPERM);
    }
    const std::array<Attempt, 2> allowed{
        threadRan,
        [&] { return codeOf(::pread(opened, bytes.data(), bytes.size(), 0)); },
    };
    for (const int code : triedConfined([] { return !enterSandbox(); }, allowed)) {
        CHECK(code == worked);
    }
    ::close(opened);
}

TEST_CASE("Landlock alone shuts the file system, where the kernel has it", "[worker][sandbox]")
{
    if (::syscall(SYS_landlock_create_ruleset, nullptr, 0, 1) < 1) {
        WARN("This kernel has no Landlock.");
        return;
    }
    const std::array<Attempt, 3> attempts{
        [] { return codeOf(::open("/etc/passwd", O_RDONLY)); },
        [] { return codeOf(::open("/tmp/latemile-worker-was-here", O_WRONLY | O_CREAT, 0600)); },
        executed,
    };
    const auto confine = [] {
        return ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && shutFileSystem();
    };
    for (const int code : triedConfined(confine, attempts)) {
        CHECK(code == EACCES);
    }
}

TEST_CASE("the worker that has a clip open is confined", "[worker][sandbox]")
{
    const auto clip = made("worker_single.mp4", movingPicture(1) + "-pix_fmt yuv420p -c:v libx264");
    const InWorkers inWorkers;
    auto reader = ClipReader::open(clip).value();
    CHECK(reader.frame({0}));
    const auto workers = children();
    REQUIRE(workers.size() == 1);
    // proc(5): 2 is a filter of system calls.
    CHECK(statusOf(workers[0], "Seccomp") == "2");
    CHECK(statusOf(workers[0], "NoNewPrivs") == "1");
}
