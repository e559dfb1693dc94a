// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/sandbox.hpp"

#include <seccomp.h>

#include <cerrno>
#include <initializer_list>
#include <memory>
#include <vector>

#include <sched.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <unistd.h>

namespace latemile {

namespace {

struct FilterFreed {
    void operator()(void* filter) const { seccomp_release(filter); }
};

scmp_arg_cmp isEqual(unsigned argument, std::uint64_t value)
{
    return {.arg = argument, .op = SCMP_CMP_EQ, .datum_a = value, .datum_b = 0};
}

scmp_arg_cmp hasBits(unsigned argument, std::uint64_t among, std::uint64_t set)
{
    return {.arg = argument, .op = SCMP_CMP_MASKED_EQ, .datum_a = among, .datum_b = set};
}

/// Adds rules until one fails.
class Rules {
public:
    explicit Rules(scmp_filter_ctx filter) : m_filter(filter) {}

    Rules& allow(int call, const std::vector<scmp_arg_cmp>& where = {})
    {
        return act(SCMP_ACT_ALLOW, call, where);
    }
    Rules& act(std::uint32_t action, int call, const std::vector<scmp_arg_cmp>& where = {})
    {
        m_isComplete = m_isComplete && seccomp_rule_add_array(m_filter, action, call,
                                                              static_cast<unsigned>(where.size()),
                                                              where.data()) == 0;
        return *this;
    }
    [[nodiscard]] bool isComplete() const { return m_isComplete; }

private:
    scmp_filter_ctx m_filter;
    bool m_isComplete = true;
};

/// Reading the clip, talking with the program.
void allowFiles(Rules& rules)
{
    rules.allow(SCMP_SYS(pread64)).allow(SCMP_SYS(close));
    rules.allow(SCMP_SYS(sendmsg), {isEqual(0, workerSocket)});
    rules.allow(SCMP_SYS(recvmsg), {isEqual(0, workerSocket)});
}

/// Memory, but none that can be run: no code comes in from now on.
void allowMemory(Rules& rules)
{
    constexpr unsigned protection = 2; // the argument's place
    rules.allow(SCMP_SYS(mmap), {hasBits(protection, PROT_EXEC, 0)});
    rules.allow(SCMP_SYS(mmap2), {hasBits(protection, PROT_EXEC, 0)});
    rules.allow(SCMP_SYS(mprotect), {hasBits(protection, PROT_EXEC, 0)});
    for (const int call : {SCMP_SYS(munmap), SCMP_SYS(mremap), SCMP_SYS(madvise), SCMP_SYS(brk)}) {
        rules.allow(call);
    }
}

/// The decoder's threads, but no process.
void allowThreads(Rules& rules)
{
    constexpr std::uint64_t thread = CLONE_VM | CLONE_SIGHAND | CLONE_THREAD;
    rules.allow(SCMP_SYS(clone), {hasBits(0, thread, thread)});
    // Its flags lie in memory, where no filter can look: libc then takes the older call.
    rules.act(SCMP_ACT_ERRNO(ENOSYS), SCMP_SYS(clone3));
    rules.allow(SCMP_SYS(prctl), {isEqual(0, PR_SET_NAME)});
    rules.allow(SCMP_SYS(tgkill), {isEqual(0, static_cast<std::uint64_t>(::getpid()))});
    for (const int call :
         {SCMP_SYS(futex), SCMP_SYS(futex_time64), SCMP_SYS(set_robust_list), SCMP_SYS(rseq),
          SCMP_SYS(gettid), SCMP_SYS(getpid), SCMP_SYS(sched_yield), SCMP_SYS(sched_getaffinity),
          SCMP_SYS(exit), SCMP_SYS(exit_group), SCMP_SYS(restart_syscall), SCMP_SYS(rt_sigaction),
          SCMP_SYS(rt_sigprocmask), SCMP_SYS(rt_sigreturn), SCMP_SYS(sigaltstack)}) {
        rules.allow(call);
    }
}

/// The time, and what is random.
void allowClocks(Rules& rules)
{
    for (const int call :
         {SCMP_SYS(clock_gettime), SCMP_SYS(clock_gettime64), SCMP_SYS(clock_getres),
          SCMP_SYS(gettimeofday), SCMP_SYS(time), SCMP_SYS(nanosleep), SCMP_SYS(clock_nanosleep),
          SCMP_SYS(clock_nanosleep_time64), SCMP_SYS(getrandom)}) {
        rules.allow(call);
    }
}

/// The undefined-behaviour sanitizer finds out by a pipe whether it may look at an object; refused,
/// it takes each for a fault. No shipped program is built with it.
void allowSanitizers([[maybe_unused]] Rules& rules)
{
#ifdef __SANITIZE_ADDRESS__
    rules.allow(SCMP_SYS(pipe2)).allow(SCMP_SYS(write));
#endif
}

} // namespace

bool allowFewSystemCalls()
{
    const std::unique_ptr<void, FilterFreed> filter(seccomp_init(SCMP_ACT_ERRNO(EPERM)));
    // A library may have started a thread of its own while it was loaded.
    if (!filter || seccomp_attr_set(filter.get(), SCMP_FLTATR_CTL_TSYNC, 1) != 0) {
        return false;
    }
    Rules rules(filter.get());
    allowFiles(rules);
    allowMemory(rules);
    allowThreads(rules);
    allowClocks(rules);
    allowSanitizers(rules);
    return rules.isComplete() && seccomp_load(filter.get()) == 0;
}

} // namespace latemile
