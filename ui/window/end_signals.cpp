// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/end_signals.hpp"

#include <QSocketNotifier>

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <csignal>

namespace latemile::ui {
namespace {

constexpr std::array endings{SIGTERM, SIGHUP, SIGINT};

/// A handler of a signal reaches nothing but what is global; reading and writing end of a pipe.
std::array<int, 2> ends{-1, -1};

void wakeUp(int)
{
    const int code = errno;
    const char byte = 1;
    [[maybe_unused]] const auto written = ::write(ends[1], &byte, 1);
    errno = code;
}

} // namespace

EndSignals::EndSignals()
{
    if (::pipe2(ends.data(), O_CLOEXEC | O_NONBLOCK) != 0) {
        return; // The signals then end the program at once; the journal has the edits.
    }
    auto* notifier = new QSocketNotifier(ends[0], QSocketNotifier::Read, this);
    connect(notifier, &QSocketNotifier::activated, this, [this] {
        char byte = 0;
        while (::read(ends[0], &byte, 1) > 0) {
        }
        emit came();
    });
    for (const int ending : endings) {
        struct sigaction action {};
        action.sa_handler = &wakeUp;
        action.sa_flags = SA_RESTART;
        sigemptyset(&action.sa_mask);
        ::sigaction(ending, &action, nullptr);
    }
}

EndSignals::~EndSignals()
{
    for (const int ending : endings) {
        std::signal(ending, SIG_DFL);
    }
    for (int& end : ends) {
        ::close(end);
        end = -1;
    }
}

} // namespace latemile::ui
