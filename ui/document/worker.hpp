// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QThread>

#include <functional>

namespace latemile::ui {

/// A thread that does one piece of work after another, in the order they were posted. Its end waits
/// for the piece at hand and drops the rest, so an owner that keeps it as its last member may be
/// named by the work without care.
class Worker {
public:
    Worker();
    ~Worker();
    Worker(const Worker&) = delete;
    Worker& operator=(const Worker&) = delete;

    void post(std::function<void()> work);

private:
    QThread m_thread;
    QObject m_there; ///< lives on the thread: work is delivered to it as events
};

} // namespace latemile::ui
