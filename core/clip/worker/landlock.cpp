// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/descriptor.hpp"
#include "core/clip/worker/sandbox.hpp"

#include <cstddef>
#include <cstdint>

#include <sys/syscall.h>
#include <unistd.h>

namespace latemile {

namespace {

/// What the kernel calls landlock_ruleset_attr, as of its version 6 of this interface: the header
/// of the system that builds may be older than the kernel that runs.
struct Rules {
    std::uint64_t fileSystem;
    std::uint64_t network; ///< from version 4
    std::uint64_t scopes;  ///< from version 6: abstract sockets, signals
};

/// The rights over files that each version knows are the lowest bits.
constexpr int rightsOf(long version)
{
    return version >= 5 ? 16 : version >= 3 ? 15 : version == 2 ? 14 : 13;
}

constexpr std::size_t bytesOf(long version)
{
    return version >= 6   ? sizeof(Rules)
           : version >= 4 ? 2 * sizeof(std::uint64_t)
                          : sizeof(std::uint64_t);
}

} // namespace

bool shutFileSystem()
{
    constexpr unsigned askVersion = 1;
    const long version =
        ::syscall(SYS_landlock_create_ruleset, nullptr, std::size_t{0}, askVersion);
    if (version < 1) {
        return true; // not in this kernel
    }
    // All rights are taken, none is given back.
    constexpr std::uint64_t bindAndConnect = 3;
    constexpr std::uint64_t socketsAndSignals = 3;
    const Rules rules{.fileSystem = (std::uint64_t{1} << rightsOf(version)) - 1,
                      .network = bindAndConnect,
                      .scopes = socketsAndSignals};
    const Descriptor ruleset(
        static_cast<int>(::syscall(SYS_landlock_create_ruleset, &rules, bytesOf(version), 0)));
    return ruleset.isOpen() && ::syscall(SYS_landlock_restrict_self, ruleset.number(), 0) == 0;
}

} // namespace latemile
