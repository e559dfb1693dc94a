// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"
#include "core/store/session.hpp"
#include "ui/document/clip_details.hpp"
#include "ui/document/frame_feed.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QTimer>

#include <filesystem>
#include <map>
#include <optional>
#include <vector>

class QUndoStack;

namespace latemile::ui {

/// One clip on the table: what the coach said about it, its frames, and what follows from both.
/// Views read it and redraw what a signal names; only commands change it, through the `replace`
/// functions, which return what stood there before.
class ClipDocument final : public QObject {
    Q_OBJECT
public:
    ClipDocument(std::filesystem::path sessionFolder, std::string date, SessionClip clip,
                 QUndoStack& history);
    ~ClipDocument() override;

    [[nodiscard]] const SessionClip& clip() const { return m_clip; }
    [[nodiscard]] const Marking& marking() const { return m_clip.marking; }
    [[nodiscard]] const Scene& scene() const { return m_clip.scene; }
    [[nodiscard]] ClipDetails details() const;
    [[nodiscard]] std::filesystem::path file() const;
    [[nodiscard]] QUndoStack& history() const { return m_history; }

    [[nodiscard]] FrameFeed& feed() { return m_feed; }
    [[nodiscard]] bool isOpen() const { return m_feed.isOpen(); }
    [[nodiscard]] const FrameIndex& index() const { return m_feed.index(); } ///< only while open
    [[nodiscard]] const ClipFacts& facts() const { return m_feed.facts(); }  ///< only while open
    [[nodiscard]] bool isBusy() const { return m_feed.isBusy(); }
    /// Why the clip cannot be shown; empty while it can or is still being opened.
    [[nodiscard]] const QString& fault() const { return m_fault; }
    /// In order of contact; none until the clip is open.
    [[nodiscard]] const std::vector<Step>& steps() const { return m_steps; }
    [[nodiscard]] bool isNear(Foot foot) const;
    /// Unconfirmed values are listed but enter no mean. Nothing until they were computed once, or
    /// where a fault forbids it.
    [[nodiscard]] const std::optional<Readings>& readings() const { return m_readings; }
    [[nodiscard]] const QString& readingsFault() const { return m_readingsFault; }
    /// True while newer readings are on their way.
    [[nodiscard]] bool isReading() const { return m_reading || m_readAgain || m_pause.isActive(); }

    /// All that readings are computed from; only while open.
    [[nodiscard]] MarkedClip marked() const;

    /// How the clip's file is read, and how well its coach finds a landmark: for work on the same
    /// frames elsewhere.
    [[nodiscard]] ClipOptions clipOptions() const;
    [[nodiscard]] const ClickErrors& clicks() const { return m_clicks; }

    void setAthlete(const AthleteFacts& athlete);
    /// How well the coach of the session finds each landmark.
    void setClicks(const ClickErrors& clicks);
    /// The coach's own measures, read beside those of the table.
    void setOwnMeasures(const OwnMeasures& own);
    /// Once more from the file, after a fault.
    void openAgain() { openFile(); }

    std::optional<Mark> replaceMark(const MarkKey& key, const std::optional<Mark>& mark);
    /// Many at once, told once: afterwards `marks` holds what stood there before. Nothing for a key
    /// takes its mark away.
    void exchangeMarks(std::map<MarkKey, std::optional<Mark>>& marks);
    bool replaceUnseen(const MarkKey& key, bool unseen);
    std::vector<Stance> replaceStances(std::vector<Stance> stances);
    Scene replaceScene(Scene scene);
    ClipDetails replaceDetails(ClipDetails details);

signals:
    void opened();
    void failed(const QString& sentence);
    void markChanged(const latemile::MarkKey& key); ///< of several changed at once, the first
    void stancesChanged();
    void sceneChanged();
    void detailsChanged();
    void readingsChanged();
    void edited(); ///< any of the edits above: time to save

private:
    std::optional<Mark> putMark(const MarkKey& key, const std::optional<Mark>& mark);
    void openFile();
    void takeOpened();
    void readSoon();
    void readNow();

    const std::filesystem::path m_folder;
    const std::string m_date;
    SessionClip m_clip;
    QUndoStack& m_history;
    AthleteFacts m_athlete;
    ClickErrors m_clicks;
    OwnMeasures m_own;
    QString m_fault;
    std::vector<Step> m_steps;
    std::optional<Readings> m_readings;
    QString m_readingsFault;
    bool m_reading{};
    bool m_readAgain{};
    QTimer m_pause; ///< a drag makes many edits: read once when it rests
    FrameFeed m_feed;
    Worker m_reader; ///< last: ends before what its work names
};

} // namespace latemile::ui
