// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/saver.hpp"

#include "ui/text/words.hpp"

#include <QSemaphore>

#include <utility>

namespace latemile::ui {
namespace {

constexpr int batchMilliseconds = 20; ///< a drag makes an edit every few milliseconds
constexpr int restMilliseconds = 1000;
constexpr int againMilliseconds = 5000; ///< after a fault: somebody may have made room

} // namespace

Saver::Saver(SessionFile file, Source source)
    : m_file(std::move(file)), m_source(std::move(source)),
      m_state(m_file.isWritable() ? State::Saved : State::ReadOnly),
      m_remark(fromUtf8(m_file.remark()))
{
    m_batch.setSingleShot(true);
    m_rest.setSingleShot(true);
    connect(&m_batch, &QTimer::timeout, this, [this] { begin(Write::Journal); });
    connect(&m_rest, &QTimer::timeout, this, [this] { begin(Write::Document); });
    if (hasRecovery()) {
        m_state = State::ReadOnly;
    }
}

Saver::~Saver() = default;

void Saver::tell(State state, const QString& fault)
{
    m_state = state;
    m_fault = fault;
    emit stateChanged();
}

void Saver::editHappened()
{
    if (m_state == State::ReadOnly) {
        return; // The document takes such an edit back.
    }
    ++m_edit;
    if (!m_batch.isActive()) {
        m_batch.start(batchMilliseconds);
    }
    m_rest.start(restMilliseconds);
    tell(State::Pending);
}

Saver::Snapshot Saver::snapshot(Write what) const
{
    auto session = m_source.session(); // first: it may tell the history what an edit came to
    return {std::move(session), what == Write::Document ? m_source.edits() : EditHistory()};
}

Saver::Written Saver::write(SessionFile& file, const Snapshot& snapshot, Write what)
{
    if (what == Write::Journal) {
        return {file.keep(snapshot.session), false, file.remark()};
    }
    auto saved = file.save(snapshot.session);
    if (saved) {
        (void)file.keepHistory(snapshot.edits); // costs no edit where it fails
        return {std::move(saved), true, file.remark()};
    }
    // What is in the journal is safe all the same.
    return file.keep(snapshot.session) ? Written{{}, false, saved.error().sentence}
                                       : Written{std::move(saved), false, file.remark()};
}

void Saver::begin(Write what)
{
    if (m_writing) {
        (what == Write::Journal ? m_batch : m_rest).start(batchMilliseconds);
        return;
    }
    m_writing = true;
    m_writer.post([this, what, now = snapshot(what), edit = m_edit] {
        auto written = write(m_file, now, what);
        QMetaObject::invokeMethod(
            this,
            [this, written = std::move(written), edit] {
                m_writing = false;
                finish(written, edit);
            },
            Qt::QueuedConnection);
    });
}

void Saver::finish(const Written& written, int edit)
{
    if (const QString remark = fromUtf8(written.remark); remark != m_remark) {
        m_remark = remark;
        emit remarkChanged();
    }
    if (written.whole) {
        m_inDocument = std::max(m_inDocument, edit);
    }
    if (!written.result) {
        m_rest.start(againMilliseconds);
        tell(State::Failed, fromUtf8(written.result.error().sentence));
    } else if (edit == m_edit) {
        if (!written.whole && m_inDocument < m_edit && !m_rest.isActive()) {
            m_rest.start(againMilliseconds);
        }
        tell(State::Saved);
    } // else a newer edit is waiting for its own turn.
}

bool Saver::saveNow()
{
    m_batch.stop();
    m_rest.stop();
    if (m_state == State::ReadOnly || (m_state == State::Saved && m_inDocument == m_edit)) {
        return true;
    }
    // Behind whatever is being written, so that the newest stands last.
    Written written;
    QSemaphore done;
    m_writer.post([this, &written, &done, now = snapshot(Write::Document)] {
        written = write(m_file, now, Write::Document);
        done.release();
    });
    done.acquire();
    finish(written, m_edit);
    return m_state == State::Saved;
}

Outcome<void> Saver::recover()
{
    return m_file.recover();
}

Outcome<void> Saver::leaveOut()
{
    return m_file.leaveOut();
}

} // namespace latemile::ui
