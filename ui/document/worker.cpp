// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/worker.hpp"

#include <utility>

namespace latemile::ui {

Worker::Worker()
{
    m_there.moveToThread(&m_thread);
    m_thread.start();
}

Worker::~Worker()
{
    m_thread.quit();
    m_thread.wait();
}

void Worker::post(std::function<void()> work)
{
    QMetaObject::invokeMethod(&m_there, std::move(work), Qt::QueuedConnection);
}

} // namespace latemile::ui
