// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/sandbox.hpp"

#include <algorithm>
#include <cstdint>

#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

namespace latemile {

namespace {

// The address sanitizer reserves terabytes of addresses that it never uses.
#ifdef __SANITIZE_ADDRESS__
constexpr bool hasShadowMemory = true;
#else
constexpr bool hasShadowMemory = false;
#endif

bool limit(decltype(RLIMIT_CORE) what, rlim_t most)
{
    const rlimit both{most, most};
    return ::setrlimit(what, &both) == 0;
}

/// Three quarters of the machine, between what a clip of 4K takes with its decoder's threads and
/// what one of 8K takes.
rlim_t mostAddresses()
{
    constexpr std::uint64_t least = std::uint64_t{3} << 30;
    constexpr std::uint64_t most = std::uint64_t{16} << 30;
    const auto pages = ::sysconf(_SC_PHYS_PAGES);
    const auto pageBytes = ::sysconf(_SC_PAGESIZE);
    const auto machine = pages > 0 && pageBytes > 0 ? static_cast<std::uint64_t>(pages) *
                                                          static_cast<std::uint64_t>(pageBytes)
                                                    : least;
    return std::clamp(machine / 4 * 3, least, most);
}

} // namespace

bool setLimits()
{
    constexpr rlim_t fewDescriptors = 16;
    return limit(RLIMIT_CORE, 0) && limit(RLIMIT_FSIZE, 0) &&
           limit(RLIMIT_NOFILE, fewDescriptors) &&
           (hasShadowMemory || limit(RLIMIT_AS, mostAddresses()));
}

std::optional<std::string> enterSandbox()
{
    if (!setLimits()) {
        return "setrlimit";
    }
    if (::prctl(PR_SET_DUMPABLE, 0) != 0 || ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) {
        return "prctl";
    }
    if (!shutFileSystem()) {
        return "landlock";
    }
    return allowFewSystemCalls() ? std::nullopt : std::optional<std::string>("seccomp");
}

} // namespace latemile
