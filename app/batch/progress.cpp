// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/progress.hpp"

#include <chrono>
#include <iostream>

namespace latemile::batch {

using namespace std::chrono_literals;

Progress::Progress(std::string what)
    : m_thread([this, words = std::move(what)](const std::stop_token& stop) { speak(stop, words); })
{
}

void Progress::speak(const std::stop_token& stop, const std::string& what)
{
    const auto begin = std::chrono::steady_clock::now();
    auto pause = 1s;
    std::unique_lock lock(m_mutex);
    while (!m_wake.wait_for(lock, stop, pause, [&stop] { return stop.stop_requested(); })) {
        const auto spent = std::chrono::duration_cast<std::chrono::seconds>(
            std::chrono::steady_clock::now() - begin);
        std::cerr << what << " ... " << spent.count() << " s" << std::endl;
        pause = 3s;
    }
}

} // namespace latemile::batch
