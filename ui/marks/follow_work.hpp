// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/follow.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QString>

#include <atomic>
#include <filesystem>
#include <memory>

namespace latemile::ui {

/// What is followed: a copy of everything it takes, so that the coach can go on working.
struct FollowJob {
    std::filesystem::path file;
    ClipOptions options; ///< those the document reads the clip by
    Marking marking;
    ClickErrors clicks;
};

/// Follows a clip's placed marks away from the window's thread, with a reader of its own.
class FollowWork final : public QObject {
    Q_OBJECT
public:
    explicit FollowWork(QObject* parent = nullptr) : QObject(parent) {}
    ~FollowWork() override { m_stopped = true; }

    /// `followed` or `failed` comes after it, unless a later start or a stop comes first.
    void start(FollowJob job);
    void stop();
    [[nodiscard]] bool isBusy() const { return m_busy; }

signals:
    void progress(int percent);
    void followed(const std::shared_ptr<const latemile::FollowResult>& result);
    void failed(const QString& sentence);

private:
    [[nodiscard]] Outcome<FollowResult> follow(const FollowJob& job, int number);
    void take(const std::shared_ptr<Outcome<FollowResult>>& result, int number);
    bool tellShare(double share, int number);

    bool m_busy{};
    std::atomic<int> m_number{0}; ///< of the newest job
    std::atomic<bool> m_stopped{false};
    Worker m_worker; ///< last: ends before what its work names
};

} // namespace latemile::ui
