// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/follow.hpp"
#include "ui/document/long_work.hpp"

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
class FollowWork final : public LongWork {
    Q_OBJECT
public:
    explicit FollowWork(QObject* parent = nullptr) : LongWork(parent) {}

    /// `followed` or `failed` comes after it, unless a later start or a stop comes first.
    void follow(FollowJob job);

signals:
    void followed(const std::shared_ptr<const latemile::FollowResult>& result);
};

} // namespace latemile::ui
