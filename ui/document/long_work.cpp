// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/long_work.hpp"

#include "ui/text/words.hpp"

namespace latemile::ui {

LongWork::~LongWork()
{
    m_stopped = true;
}

void LongWork::stop()
{
    ++m_number;
    m_busy = false;
    emit ended();
}

int LongWork::begin()
{
    const int number = ++m_number;
    m_busy = true;
    emit progress(0);
    return number;
}

bool LongWork::ends(int number)
{
    if (number != m_number) {
        return false;
    }
    m_busy = false;
    emit ended();
    return true;
}

bool LongWork::tellShare(double share, int number)
{
    const int percent = static_cast<int>(100 * share);
    QMetaObject::invokeMethod(
        this,
        [this, percent, number] {
            if (number == m_number) {
                emit progress(percent);
            }
        },
        Qt::QueuedConnection);
    return number == m_number && !m_stopped;
}

void LongWork::tellFault(const Error& error)
{
    emit failed(fromUtf8(error.sentence));
}

} // namespace latemile::ui
