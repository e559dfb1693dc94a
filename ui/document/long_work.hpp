// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QString>

#include <atomic>
#include <functional>
#include <memory>
#include <utility>

namespace latemile::ui {

/// One piece of core's work at a time, away from the window's thread, with its progress told and
/// stopped when it is not wanted any more. What is made of it names its own work and its own signal
/// for the result.
class LongWork : public QObject {
    Q_OBJECT
public:
    ~LongWork() override;

    /// The piece at hand ends soon and is not heard of again.
    void stop();
    [[nodiscard]] bool isBusy() const { return m_busy; }

signals:
    void progress(int percent);
    void failed(const QString& sentence);
    void ended(); ///< in whatever way; before its result or fault is told

protected:
    /// Told by the work, on its own thread, with the share done, 0 to 1; false: end.
    using Tell = std::function<bool(double share)>;

    explicit LongWork(QObject* parent) : QObject(parent) {}

    /// `work` runs on the other thread and must hold copies of all it takes; `done` on this one,
    /// unless a later start or a stop came first. A fault comes as `failed`.
    template <class Result>
    void start(std::function<Outcome<Result>(const Tell&)> work, std::function<void(Result)> done)
    {
        const int number = begin();
        m_worker.post([this, work = std::move(work), done = std::move(done), number] {
            auto result = std::make_shared<Outcome<Result>>(
                work([this, number](double share) { return tellShare(share, number); }));
            QMetaObject::invokeMethod(
                this,
                [this, result, done, number] {
                    if (!ends(number)) {
                        return; // Stopped, or begun again.
                    }
                    if (*result) {
                        done(std::move(**result));
                    } else {
                        tellFault(result->error());
                    }
                },
                Qt::QueuedConnection);
        });
    }

private:
    [[nodiscard]] int begin();
    [[nodiscard]] bool ends(int number);
    bool tellShare(double share, int number);
    void tellFault(const Error& error);

    bool m_busy{};
    std::atomic<int> m_number{0}; ///< of the newest piece
    std::atomic<bool> m_stopped{false};
    Worker m_worker; ///< last: ends before what its work names
};

} // namespace latemile::ui
