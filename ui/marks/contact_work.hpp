// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/follow/contact_finder.hpp"
#include "ui/document/long_work.hpp"

#include <filesystem>
#include <memory>

namespace latemile::ui {

/// What contacts are found from: a copy of everything it takes, so that the coach can go on
/// working.
struct ContactJob {
    std::filesystem::path file;
    ClipOptions options; ///< those the document reads the clip by
    Marking marking;
    Scene scene;
};

/// Finds contacts by a clip's pictures away from the window's thread, with a reader of its own.
class ContactWork final : public LongWork {
    Q_OBJECT
public:
    explicit ContactWork(QObject* parent = nullptr) : LongWork(parent) {}

    /// `found` or `failed` comes after it, unless a later start or a stop comes first.
    void find(ContactJob job);

signals:
    void found(const std::shared_ptr<const latemile::ContactFindings>& findings);
};

} // namespace latemile::ui
