// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/looks_file.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QPointer>

#include <filesystem>
#include <map>
#include <memory>

class QUndoStack;

namespace latemile::ui {

class ClipDocument;

/// What the pose network saw of each clip of a session, and what the coach said about how to look:
/// in memory while the session is open, and beside the clip for another day.
class SeenClips final : public QObject {
    Q_OBJECT
public:
    struct Seen {
        std::vector<FoundBody> found; ///< in order of time
        std::optional<CropPath> path;
        std::optional<RunnerBox> box;
        std::shared_ptr<LegTurns> turns = std::make_shared<LegTurns>(); ///< commands hold them too
        LegTurns keptTurns;   ///< an undo changes them without a word
        bool isTaught{};      ///< proposed again since the coach placed marks of a whole step
        bool isOtherRunner{}; ///< by another box than the proposals that stand in the document
        double rate{};        ///< the capture rate that the times of all this follow
    };

    explicit SeenClips(QObject* parent) : QObject(parent) {}
    ~SeenClips() override; ///< waits for what is being written

    /// Of an open clip, as its times are now.
    [[nodiscard]] Seen& of(const ClipDocument& clip);
    /// False while the clip is being opened, and where its times changed since it was looked at.
    [[nodiscard]] bool isCurrent(const ClipDocument& clip) const;
    void keep(const ClipDocument& clip);
    void keepTurns(const ClipDocument& clip); ///< where they changed since they were kept
    /// Of the session with these clips: an edit of an earlier run that is undone or done again may
    /// have been an exchange of legs. Which is not known, so all exchanges are forgotten: one too
    /// few is seen at once and made by one key.
    void watch(const QUndoStack& history, const std::filesystem::path& clipsFolder);

private:
    [[nodiscard]] Seen before(const ClipDocument& clip) const;
    void historyMoved(int index);

    std::map<std::filesystem::path, Seen> m_seen; ///< by the clip's file
    QPointer<const QUndoStack> m_history;
    std::filesystem::path m_clipsFolder;
    int m_index{};
    bool m_turnsOnDisk{true}; ///< there may be some
    bool m_forgetsTurns{};    ///< also those of clips not looked at yet
    Worker m_keeper;
};

} // namespace latemile::ui
