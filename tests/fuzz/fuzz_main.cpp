// SPDX-License-Identifier: GPL-3.0-or-later
// One target for libFuzzer: built with clang and LATEMILE_FUZZ, one program a target.
#include "tests/fuzz/targets.hpp"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count)
{
    static const auto& target = latemile::fuzz::targetNamed(LATEMILE_FUZZ_TARGET);
    (void)target.read({reinterpret_cast<const char*>(bytes), count});
    return 0;
}
