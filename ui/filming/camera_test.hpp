// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/camera_moved.hpp"
#include "ui/document/worker.hpp"

#include <QObject>

#include <atomic>
#include <filesystem>
#include <optional>

namespace latemile::ui {

/// Looks away from the window's thread whether the camera of one clip stood where it stood for
/// another.
class CameraTest final : public QObject {
    Q_OBJECT
public:
    explicit CameraTest(QObject* parent = nullptr) : QObject(parent) {}
    ~CameraTest() override { m_stopped = true; }

    /// `judged` or `failed` follows, unless a later start or a stop comes first.
    void start(const std::filesystem::path& before, const std::filesystem::path& now,
               std::optional<double> cmPerPixel);
    void stop();
    [[nodiscard]] bool isBusy() const { return m_busy; }

signals:
    void progress(int percent);
    void judged(const latemile::CameraVerdict& verdict);
    void failed(const QString& sentence);

private:
    Outcome<CameraVerdict> judge(const std::filesystem::path& before,
                                 const std::filesystem::path& now, std::optional<double> cmPerPixel,
                                 int number);
    bool tellShare(double share, int number);

    bool m_busy{};
    std::atomic<int> m_number{0}; ///< of the newest question
    std::atomic<bool> m_stopped{false};
    Worker m_worker; ///< last: ends before what its work names
};

} // namespace latemile::ui
