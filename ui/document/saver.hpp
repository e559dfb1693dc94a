// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QTimer>

#include <filesystem>
#include <functional>
#include <optional>

namespace latemile::ui {

/// Writes a session soon after each edit, away from the window's thread, and says how it stands.
class Saver final : public QObject {
    Q_OBJECT
public:
    enum class State { Saved, Pending, Failed };

    /// `snapshot` is called on the window's thread and gives the session as it is now.
    Saver(std::filesystem::path folder, std::function<Session()> snapshot);
    ~Saver() override;

    [[nodiscard]] State state() const { return m_state; }
    [[nodiscard]] const QString& fault() const { return m_fault; }
    void editHappened();
    /// Waits until everything is on disk; false where that failed.
    bool saveNow();

signals:
    void stateChanged();

private:
    void begin();
    void finish(const Outcome<void>& result, int edit);

    const std::filesystem::path m_folder;
    const std::function<Session()> m_snapshot;
    State m_state{State::Saved};
    QString m_fault;
    int m_edit{};
    QTimer m_pause;
    Worker m_writer;
};

} // namespace latemile::ui
