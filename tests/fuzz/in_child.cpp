// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/in_child.hpp"

#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>

namespace latemile::fuzz {

std::optional<Ended> endedIn(int from, int to, const std::function<void(int)>& trial)
{
    constexpr unsigned patience = 5;
    void* shared =
        ::mmap(nullptr, sizeof(int), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (shared == MAP_FAILED) {
        std::abort();
    }
    auto& at = *static_cast<volatile int*>(shared);
    const pid_t child = ::fork();
    if (child == 0) {
        // The test library's own handlers would report the crash as the parent's.
        for (const int one : {SIGSEGV, SIGABRT, SIGFPE, SIGBUS, SIGILL, SIGALRM}) {
            std::signal(one, SIG_DFL);
        }
        for (int i = from; i < to; ++i) {
            at = i;
            ::alarm(patience);
            trial(i);
        }
        ::_exit(0);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    const int reached = at;
    ::munmap(shared, sizeof(int));
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0) {
        return std::nullopt;
    }
    return Ended{reached, WIFSIGNALED(status) ? WTERMSIG(status) : 0};
}

} // namespace latemile::fuzz
