// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session_file.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QTimer>

#include <functional>

namespace latemile::ui {

/// Keeps a session on disk, away from the window's thread, and says how it stands: each edit in the
/// journal at once, the whole document when the coach rests.
class Saver final : public QObject {
    Q_OBJECT
public:
    /// Saved: every edit is on disk for good, in the journal or in the document.
    enum class State { Saved, Pending, Failed, ReadOnly };

    /// What is to be kept as it is now; called on the window's thread.
    struct Source {
        std::function<Session()> session;
        std::function<EditHistory()> edits;
    };
    Saver(SessionFile file, Source source);
    ~Saver() override;

    [[nodiscard]] State state() const { return m_state; }
    [[nodiscard]] const QString& fault() const { return m_fault; }
    /// What SessionFile had to say last; empty as a rule.
    [[nodiscard]] const QString& remark() const { return m_remark; }
    void editHappened();
    /// Waits until the document is on disk, or the edits are in its journal; false where both
    /// failed.
    bool saveNow();

    /// Edits of an earlier run that are not in the document; while there are, nothing is written.
    [[nodiscard]] bool hasRecovery() const { return m_file.recovery().has_value(); }
    [[nodiscard]] const Recovery& recovery() const { return *m_file.recovery(); }
    Outcome<void> recover(); ///< open the session again afterwards
    Outcome<void> leaveOut();

signals:
    void stateChanged();
    void remarkChanged();

private:
    enum class Write { Journal, Document };
    struct Written {
        Outcome<void> result;
        bool whole{};
        std::string remark;
    };
    /// Whatever is to be written, as it was at one moment.
    struct Snapshot {
        Session session;
        EditHistory edits; ///< only where the document is written
    };
    [[nodiscard]] Snapshot snapshot(Write what) const;
    static Written write(SessionFile& file, const Snapshot& snapshot, Write what);
    void begin(Write what);
    void finish(const Written& written, int edit);
    void tell(State state, const QString& fault = {});

    SessionFile m_file; ///< once writing began: the writer's thread only
    const Source m_source;
    State m_state{State::Saved};
    QString m_fault;
    QString m_remark;
    int m_edit{};
    int m_inDocument{}; ///< the edit up to which the document holds all
    bool m_writing{};   ///< one write at a time: on a slow disk the edits meanwhile share the next
    QTimer m_batch;
    QTimer m_rest;
    Worker m_writer;
};

} // namespace latemile::ui
