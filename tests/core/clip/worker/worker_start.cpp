// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/worker_main.hpp"

#include <cstdlib>

namespace {

/// What a program's main() does first. Before it, since the tests share theirs; libc hands the
/// arguments to what runs before main().
[[gnu::constructor]] void beforeMain(int argc, char** argv)
{
    latemile::serveIfWorker(argc, argv);
    if (std::getenv("LATEMILE_TEST_IN_WORKERS") != nullptr) {
        latemile::decodeInWorkers();
    }
}

} // namespace
