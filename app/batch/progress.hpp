// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace latemile::batch {

/// While it lives, says on standard error that work goes on: first after a second, then every few
/// seconds, so that short work says nothing.
class Progress {
public:
    explicit Progress(std::string what); ///< "Reading clips/fresh.mp4"
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

private:
    void speak(const std::stop_token& stop, const std::string& what);

    std::mutex m_mutex;
    std::condition_variable_any m_wake;
    std::jthread m_thread; // last: stopped and joined before what it uses goes
};

} // namespace latemile::batch
