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

/// Brings video files into a session's folder, away from the window's thread, one after another: as
/// copies, or as links to where they are. A file that is there already is taken as it is.
class ClipImport final : public QObject {
    Q_OBJECT
public:
    explicit ClipImport(std::filesystem::path sessionFolder, QObject* parent = nullptr);
    ~ClipImport() override;

    enum class How { Copy, Link };
    void add(const std::filesystem::path& file, How how);
    void cancel(); ///< what is not yet whole is taken away again
    [[nodiscard]] bool isBusy() const { return m_left > 0; }

signals:
    void copied(const QString& belowSession); ///< "clips/fresh.mp4"
    void failed(const QString& sentence);
    void progress(const QString& name, int percent);
    void done(); ///< nothing more is on its way

private:
    Outcome<std::string> bring(const std::filesystem::path& from, How how);
    Outcome<void> copy(const std::filesystem::path& from, const std::filesystem::path& target);
    /// What no clip can be made of stays outside: the sentence says why.
    [[nodiscard]] Outcome<void> checkVideo(const std::filesystem::path& file) const;

    const std::filesystem::path m_folder;
    int m_left{};
    std::atomic<bool> m_cancelled{false};
    Worker m_worker;
};

} // namespace latemile::ui
