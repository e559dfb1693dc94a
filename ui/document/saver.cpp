// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/saver.hpp"

#include "ui/text/words.hpp"

#include <QSemaphore>

#include <utility>

namespace latemile::ui {

Saver::Saver(std::filesystem::path folder, std::function<Session()> snapshot)
    : m_folder(std::move(folder)), m_snapshot(std::move(snapshot))
{
    m_pause.setSingleShot(true);
    m_pause.setInterval(250);
    connect(&m_pause, &QTimer::timeout, this, &Saver::begin);
}

Saver::~Saver() = default;

void Saver::editHappened()
{
    ++m_edit;
    m_state = State::Pending;
    m_pause.start();
    emit stateChanged();
}

void Saver::begin()
{
    m_writer.post([this, session = m_snapshot(), edit = m_edit] {
        const auto result = writeSession(session, m_folder);
        QMetaObject::invokeMethod(
            this, [this, result, edit] { finish(result, edit); }, Qt::QueuedConnection);
    });
}

void Saver::finish(const Outcome<void>& result, int edit)
{
    if (edit != m_edit) {
        return; // A newer edit is waiting for its own turn.
    }
    m_state = result ? State::Saved : State::Failed;
    m_fault = result ? QString() : fromUtf8(result.error().sentence);
    emit stateChanged();
}

bool Saver::saveNow()
{
    m_pause.stop();
    if (m_state == State::Saved) {
        return true;
    }
    // Behind whatever is being written, so that the newest stands last.
    Outcome<void> result;
    QSemaphore written;
    m_writer.post([this, &result, &written, session = m_snapshot()] {
        result = writeSession(session, m_folder);
        written.release();
    });
    written.acquire();
    finish(result, m_edit);
    return m_state == State::Saved;
}

} // namespace latemile::ui
