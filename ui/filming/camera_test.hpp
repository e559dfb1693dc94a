// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/camera_moved.hpp"
#include "ui/document/long_work.hpp"

#include <filesystem>
#include <optional>

namespace latemile::ui {

/// Looks away from the window's thread whether the camera of one clip stood where it stood for
/// another.
class CameraTest final : public LongWork {
    Q_OBJECT
public:
    explicit CameraTest(QObject* parent = nullptr) : LongWork(parent) {}

    /// `judged` or `failed` follows, unless a later start or a stop comes first.
    void judge(const std::filesystem::path& before, const std::filesystem::path& now,
               std::optional<double> cmPerPixel);

signals:
    void judged(const latemile::CameraVerdict& verdict);
};

} // namespace latemile::ui
