// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QString>

#include <atomic>
#include <deque>
#include <filesystem>

namespace latemile::ui {

/// Copies video files into a session's folder, away from the window's thread, one after another.
/// A file already there under the same name and size is taken as it is.
class ClipImport final : public QObject {
    Q_OBJECT
public:
    explicit ClipImport(std::filesystem::path sessionFolder, QObject* parent = nullptr);
    ~ClipImport() override;

    void add(const std::filesystem::path& file);
    void cancel(); ///< what is not yet whole is taken away again
    [[nodiscard]] bool isBusy() const { return m_left > 0; }

signals:
    void copied(const QString& belowSession); ///< "clips/fresh.mp4"
    void failed(const QString& sentence);
    void progress(const QString& name, int percent);
    void done(); ///< nothing more is on its way

private:
    Outcome<std::string> copy(const std::filesystem::path& from);
    /// What no clip can be made of stays outside: the sentence says why.
    [[nodiscard]] Outcome<void> checkVideo(const std::filesystem::path& file) const;

    const std::filesystem::path m_folder;
    int m_left{};
    std::atomic<bool> m_cancelled{false};
    Worker m_worker;
};

} // namespace latemile::ui
