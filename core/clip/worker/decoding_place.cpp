// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/decoding_place.hpp"

#include <mutex>

namespace latemile {

namespace {

struct Place {
    std::mutex mutex;
    std::optional<WorkerTerms> terms; // guarded by mutex
};

Place& place()
{
    static Place ofThisProgram;
    return ofThisProgram;
}

} // namespace

void decodeInWorkers(const WorkerTerms& terms)
{
    const std::lock_guard lock(place().mutex);
    place().terms = terms;
}

void decodeInProcess()
{
    const std::lock_guard lock(place().mutex);
    place().terms.reset();
}

std::optional<WorkerTerms> workerTerms()
{
    const std::lock_guard lock(place().mutex);
    return place().terms;
}

} // namespace latemile
